export { type JobContract } from './contract.js';
export { jobs, type JobName, type JobPayload } from './jobs.js';
