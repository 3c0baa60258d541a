export { messageTemplates, placeholdersOf } from './catalogue.js';
export { checkText, type TextProblem } from './check-text.js';
export { chooseText, languageFor, type ChosenText, type OwnText } from './choose-text.js';
export {
  judgeReport,
  readDeliveryReport,
  returnedMessageId,
  type DeliveryReport,
  type RecipientReport,
} from './delivery-report.js';
export { isAddressFault, judgeSmtpFailure, type SmtpFailure, type SmtpVerdict } from './smtp-answer.js';
export { preview, render, type RenderedMessage } from './render.js';
export { afterQuietHours, beforeQuietHours, type QuietHours } from './quiet-hours.js';
export { reminderTimes, type ReminderTimes } from './reminder-times.js';
export {
  languages,
  type Language,
  type MessageTemplate,
  type MessageText,
  type Placeholder,
  type PlaceholderKind,
} from './template.js';
