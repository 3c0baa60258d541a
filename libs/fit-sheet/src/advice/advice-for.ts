import type { SheetLanguage } from '../words/index.js';
import { adviceStages, adviceVersion, type AdviceStage } from './advice-stages.js';

export interface Advice {
  readonly stage: AdviceStage['id'];
  readonly adviceVersion: number;
  readonly language: SheetLanguage;
  readonly items: readonly string[];
}

/**
 * What to tell a rider of the first weeks.
 *
 * @param cleatChangesMm how far each foot's cleat was moved, either way; empty when not known, and then it is advised as
 *   if one had been moved, since nothing says that none was
 */
export function adviceFor(cleatChangesMm: readonly number[], language: SheetLanguage): Advice {
  const farthest = Math.max(...cleatChangesMm.map(Math.abs));
  const stage =
    cleatChangesMm.length === 0
      ? adviceStages.find(({ id }) => id === 'small_change')
      : adviceStages.findLast(({ fromMm }) => farthest >= fromMm);
  const { id, items } = stage as AdviceStage;
  return { stage: id, adviceVersion, language, items: items.map((text) => text[language]) };
}
