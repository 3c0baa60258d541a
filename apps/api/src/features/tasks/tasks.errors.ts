import type { TaskState } from '@studio/database';
import { ApiError } from '../../http/problem.js';
import { taskActionsIn } from './task-actions.js';

export class TaskActionImpossible extends ApiError {
  readonly code = 'tasks.not-possible';
  readonly status = 409;
  readonly title = 'The state of the task does not allow this';

  constructor(state: TaskState) {
    super(undefined, { state, allowed: taskActionsIn(state) });
  }
}

export class TaskOpenAlready extends ApiError {
  readonly code = 'tasks.open-already';
  readonly status = 409;
  readonly title = 'Another task about the same is open';
}

export class AssigneeCannotSee extends ApiError {
  readonly code = 'tasks.assignee-cannot-see';
  readonly status = 422;
  readonly title = 'A task goes to somebody whose inbox it is in';

  constructor() {
    super(undefined, { errors: [{ field: 'userId', message: "names nobody with the task's role" }] });
  }
}
