export { type JobContract } from './contract.js';
export { jobs, type JobName, type JobPayload } from './jobs.js';
export { messageTemplateNames, type MessageTemplateName } from './message-templates.js';
