export { layout } from './layout.js';
export {
  adviceOf,
  firstStep,
  questionsOf,
  reviewPage,
  savePage,
  stillMissing,
  urgentPage,
  type Answering,
} from './answering.js';
export { errorSummary } from './error-summary.js';
export { formPages, relevantAnswers } from './form-pages.js';
export { LinkClosed } from './intake-pages.errors.js';
export { PageFilter } from './page.filter.js';
export { ProblemPageFilter, type PageWords } from './problem-page.filter.js';
export type { Form } from './read-form.js';
export { answer, sendPage } from './send-page.js';
export type { Outcome, Shown } from './shown.js';
export { styleElement } from './style.js';
export { SentForm } from './sent-form.js';
