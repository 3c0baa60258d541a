export { openTasksBefore } from './inboxes.js';
export { TaskResponse } from './tasks.dto.js';
