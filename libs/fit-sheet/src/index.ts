export { adviceFor, type Advice } from './advice/advice-for.js';
export { adviceStages, adviceVersion, type AdviceStage } from './advice/advice-stages.js';
export { buildFitSheet } from './build-fit-sheet.js';
export type { FitSheetFacts, MeasurementFacts, PlanFacts, PositionFacts, SheetOptions } from './facts.js';
export { fitSheetPage } from './page.js';
export { figureNames, figuresOf, type Block, type FigureName, type Section, type Sheet } from './sheet.js';
export { sheetLanguages, type SheetLanguage } from './words/index.js';
