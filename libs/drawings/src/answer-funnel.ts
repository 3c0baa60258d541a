import { bodyTop, drawing, marginX, shortened, type Drawing } from './drawing.js';
import { element, label } from './svg.js';
import { colour, smallSize, textSize } from './style.js';

export interface FunnelStage {
  readonly label: string;
  readonly n: number;
  /** Why fewer are left than at the stage before; the counts add up to the loss. */
  readonly lost: readonly { readonly label: string; readonly n: number }[];
}

const widthPx = 780;
const stageHeight = 62;
const barLeft = 216;
const barWidth = 300;

/**
 * From all who belong to the group down to those whose answers can be used, and where the others were lost.
 *
 * @param stages the widest first
 * @throws RangeError when a stage holds more than the one before, or its losses do not add up
 */
export function answerFunnel(of: {
  title: string;
  subtitle: string;
  stages: readonly FunnelStage[];
}): Drawing {
  const { title, subtitle, stages } = of;
  const all = stages[0]?.n ?? 0;
  for (const [index, { n, lost, label: name }] of stages.entries()) {
    const before = stages[index - 1]?.n ?? n;
    if (lost.reduce((sum, loss) => sum + loss.n, n) !== before) {
      throw new RangeError(`the losses before “${name}” do not add up`);
    }
  }
  const heightPx = bodyTop + stageHeight * stages.length + 14;
  const widthFor = (n: number): number => (all === 0 ? 0 : (n / all) * barWidth);
  const why = (stage: FunnelStage): string =>
    stage.lost
      .filter(({ n }) => n > 0)
      .map(({ label: name, n }) => `${n} ${name}`)
      .join(', ');

  return drawing({
    widthPx,
    heightPx,
    title,
    subtitle,
    description: stages
      .map((stage) => `${stage.label}: ${stage.n}${why(stage) === '' ? '' : ` (without ${why(stage)})`}.`)
      .join(' '),
    data: {
      columns: ['stage', 'people', 'lost before', 'lost'],
      rows: stages.flatMap((stage) => [
        [stage.label, stage.n, null, null],
        ...stage.lost.map((loss) => [stage.label, null, loss.label, loss.n]),
      ]),
    },
    body: stages.flatMap((stage, index) => {
      const top = bodyTop + 8 + stageHeight * index;
      const width = widthFor(stage.n);
      const before = widthFor(stages[index - 1]?.n ?? stage.n);
      const share = all === 0 ? '' : ` (${((100 * stage.n) / all).toFixed(0)} %)`;
      const lines = wrapped(why(stage), 32);
      return [
        label(barLeft - 14, top + 23, shortened(stage.label, barLeft - 14 - marginX, textSize), {
          'text-anchor': 'end',
        }),
        element('rect', { x: barLeft, y: top, width: barWidth, height: 36, fill: colour.band }),
        element('rect', {
          x: barLeft + width,
          y: top,
          width: before - width,
          height: 36,
          fill: colour.faint,
        }),
        element('rect', { x: barLeft, y: top, width, height: 36, fill: colour.strong }),
        countLabel(`${stage.n}${share}`, { top, width, before }),
        ...lines.map((words, row) =>
          label(barLeft + barWidth + 16, top + 16 + 15 * row, row === 0 ? `− ${words}` : words, {
            'font-size': smallSize,
          }),
        ),
      ];
    }),
  });
}

/** In the bar where there is room, else beside it, else at the end of what was lost. */
function countLabel(words: string, bar: { top: number; width: number; before: number }): string {
  const { top, width, before } = bar;
  const room = 100;
  const bold = { 'font-weight': 'bold' };
  if (width > room) return label(barLeft + 10, top + 23, words, { ...bold, fill: colour.paper });
  if (barWidth - before > room) return label(barLeft + before + 8, top + 23, words, bold);
  return label(barLeft + before - 8, top + 23, words, { ...bold, 'text-anchor': 'end' });
}

/** Lines of at most so many characters, broken between words; four at most. */
function wrapped(words: string, most: number): string[] {
  const lines: string[] = [];
  for (const word of words.split(' ').filter((item) => item !== '')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + word.length < most) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines.slice(0, 4);
}
