import { taskSubjects } from '@studio/database';
import { taskActionsIn } from './task-actions.js';
import type { TaskResponse } from './tasks.dto.js';
import type { TaskRecord } from './tasks.queries.js';

export function toResponse(record: TaskRecord): TaskResponse {
  return { ...record, subjectType: taskSubjects[record.kind], allowed: taskActionsIn(record.state) };
}
