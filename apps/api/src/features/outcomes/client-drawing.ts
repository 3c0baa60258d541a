import { courseOverTime } from '@studio/drawings';
import { outcomeMeasures } from '@studio/outcome-stats';
import type { ClientSummaryResponse, ReportAtResponse } from './client-summary.dto.js';
import { DrawingResponse } from './drawing.dto.js';

const panels = {
  pain: { label: 'Pain on the bike', unit: 'of 10', valueOf: ({ pain }: ReportAtResponse) => pain },
  comfort: {
    label: 'Comfort on the bike',
    unit: 'of 100',
    valueOf: ({ comfort }: ReportAtResponse) => comfort,
  },
  power_20_min_w: {
    label: '20-minute power',
    unit: 'W',
    valueOf: ({ power20MinW }: ReportAtResponse) => power20MinW,
  },
  chosen_activities: {
    label: 'What the rider named',
    unit: 'of 10',
    valueOf: ({ chosenActivities }: ReportAtResponse) => chosenActivities,
  },
  global_change: {
    label: 'All in all',
    unit: 'points',
    valueOf: ({ overallChange }: ReportAtResponse) => overallChange,
  },
} as const;
const onlyIfTold = ['chosen_activities', 'global_change'];

/** A client's measures over the weeks, each against what would be no real change. */
export function clientDrawing({ measures, course }: ClientSummaryResponse): DrawingResponse {
  const drawing = courseOverTime({
    title: 'Before the fit and since',
    subtitle: 'within the grey band there is no real change',
    panels: measures.filter(isDrawn).map(({ measure, detectable, important }) => {
      const { better, scale } = outcomeMeasures[measure];
      const { label, unit, valueOf } = panels[measure];
      return {
        label,
        unit,
        better,
        scale,
        bandHalfWidth:
          detectable === null && important === null ? null : Math.max(detectable ?? 0, important ?? 0),
        points: course.map((report) => ({ week: report.week, value: valueOf(report) })),
      };
    }),
  });
  return DrawingResponse.of('course', drawing);
}

/** Not everybody names something, and older sets of questions ask neither. */
const isDrawn = ({ measure, after }: ClientSummaryResponse['measures'][number]): boolean =>
  !onlyIfTold.includes(measure) || after !== null;
