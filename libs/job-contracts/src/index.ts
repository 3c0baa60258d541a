export { type JobContract } from './contract.js';
export { messageTemplateNames, type MessageTemplateName } from './message-templates.js';
export { jobs, type JobName, type JobOfStudio, type JobPayload } from './jobs.js';
export { queueNames, queues, type QueueName, type QueueRules } from './queues.js';
export { rulesOf, waitBeforeRetryMs } from './rules.js';
export { webhookEvents, webhookEventTypes, type WebhookEventType } from './webhook-events.js';
