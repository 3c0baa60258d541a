export {
  auditLog,
  countries,
  countryIds,
  type CountryId,
  type CountryRules,
  type KeptFor,
} from './countries.js';
export { answerBy, auditKeptFrom, keepUntil } from './keep-until.js';
export { processingActivities, protection, type ProcessingActivity } from './processing-activities.js';
