import { decimalAmount } from '@studio/money';
import { stringify } from 'csv-stringify/sync';
import { fewestShown, hideSmallCells, hideSmallCounts } from './small-cells.js';
import type { VisitCountsResponse, WorkloadResponse } from './workload.dto.js';

/** One number of the workload, as it may leave the house. */
export interface WorkloadRow {
  readonly section: 'visits' | 'fitter' | 'room' | 'revenue' | 'shoe_work' | 'referrals';
  readonly name: string;
  readonly statistic: string;
  readonly value: string;
  readonly unit: string;
  readonly hidden: boolean;
}

/** What the columns hold; part of the API's document. */
export const workloadColumns = [
  '`section`: visits, fitter, room, revenue, shoe_work or referrals',
  '`name`: of the fitter or room; of revenue the month, fitter and site',
  '`statistic`: what the number is',
  '`value`: the number, with a point; empty where there is none or it is hidden',
  '`unit`: visits, hours, of_open, a currency, or cases',
  '`hidden`: true where the number speaks of fewer than five people or would let such a number be worked out',
].join('; ');

/** The same numbers as the answer; counts and sums of fewer than five are hidden. */
export function workloadRows(workload: WorkloadResponse): WorkloadRow[] {
  const { visits, fitters, rooms, revenue, shoeWork, referrals } = workload;
  const names = new Map(fitters.map(({ fitterId, name }) => [fitterId, name]));
  // The visits of the fitters add up to those of all, and the parts to what was planned.
  const [ofAll = [], ...ofFitters] = hideSmallCells([visits, ...fitters].map(visitCounts));
  const ofRooms = hideSmallCounts(rooms.map((room) => room.visits));
  return [
    ...visitRows('visits', 'all', ofAll),
    ...fitters.flatMap((fitter, index) => [
      ...visitRows('fitter', fitter.name, ofFitters[index] ?? []),
      ...hourRows('fitter', fitter.name, fitter),
    ]),
    ...rooms.flatMap((room, index) => [
      countRow('room', room.name, 'visits', ofRooms[index] ?? null, 'visits'),
      ...hourRows('room', room.name, room),
    ]),
    ...revenue.flatMap((line) => {
      const fitter = line.fitterId === null ? 'no visit' : (names.get(line.fitterId) ?? line.fitterId);
      const name = [line.month, fitter, ...(line.siteId === null ? [] : [line.siteId])].join(', ');
      const few = line.receipts < fewestShown;
      const sum = (statistic: string, amountMinor: number): WorkloadRow => ({
        ...{ section: 'revenue', name, statistic, unit: line.currency, hidden: few },
        value: few ? '' : decimalAmount(amountMinor, line.currency),
      });
      return [
        counted('revenue', name, 'receipts', line.receipts, 'receipts'),
        sum('net', line.netMinor),
        sum('tax', line.taxMinor),
        sum('gross', line.grossMinor),
      ];
    }),
    counted('shoe_work', 'all', 'pairs', shoeWork, 'pairs'),
    ...(referrals === null ? [] : [counted('referrals', 'all', 'opened', referrals, 'cases')]),
  ];
}

const visitStatistics = ['planned', 'attended', 'no_shows', 'cancelled', 'cancelled_late', 'booked'] as const;

const visitCounts = (counts: VisitCountsResponse): number[] => [
  ...[counts.planned, counts.attended, counts.noShows, counts.cancelled, counts.cancelledLate, counts.booked],
];

function visitRows(
  section: 'visits' | 'fitter',
  name: string,
  shown: readonly (number | null)[],
): WorkloadRow[] {
  return visitStatistics.map((statistic, index) =>
    countRow(section, name, statistic, shown[index] ?? null, 'visits'),
  );
}

/** Hours speak of the house, not of clients. */
function hourRows(
  section: 'fitter' | 'room',
  name: string,
  told: { bookedHours: number; openHours: number | null; utilisation: number | null },
): WorkloadRow[] {
  const row = (statistic: string, value: number | null, unit: string): WorkloadRow => ({
    ...{ section, name, statistic, unit, hidden: false },
    value: value === null ? '' : String(Number(value.toFixed(4))),
  });
  return [
    row('hours_booked', told.bookedHours, 'hours'),
    row('hours_open', told.openHours, 'hours'),
    row('utilisation', told.utilisation, 'of_open'),
  ];
}

function counted(
  section: WorkloadRow['section'],
  name: string,
  statistic: string,
  count: number,
  unit: string,
): WorkloadRow {
  return countRow(section, name, statistic, count > 0 && count < fewestShown ? null : count, unit);
}

function countRow(
  section: WorkloadRow['section'],
  name: string,
  statistic: string,
  shown: number | null,
  unit: string,
): WorkloadRow {
  return { section, name, statistic, value: String(shown ?? ''), unit, hidden: shown === null };
}

/** CSV (RFC 4180) in UTF-8 with a byte order mark; a name that a spreadsheet would take for a formula is neutralised. */
export function workloadCsv(rows: readonly WorkloadRow[]): string {
  return stringify(
    // Numbers as numbers, which are no formulas though they may begin with a minus.
    rows.map((row) => ({ ...row, value: row.value === '' ? '' : Number(row.value) })),
    {
      header: true,
      columns: ['section', 'name', 'statistic', 'value', 'unit', 'hidden'],
      record_delimiter: 'windows',
      bom: true,
      escape_formulas: true,
      cast: { boolean: String },
    },
  );
}
