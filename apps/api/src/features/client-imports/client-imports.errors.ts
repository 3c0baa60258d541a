import type { ImportState } from '@studio/database';
import { ApiError } from '../../http/problem.js';
import { importActionsIn } from './import-actions.js';

export class CsvUnreadable extends ApiError {
  readonly code = 'client-imports.unreadable';
  readonly status = 422;
  readonly title = 'The list cannot be read';
}

export class ImportActionImpossible extends ApiError {
  readonly code = 'client-imports.not-possible';
  readonly status = 409;
  readonly title = 'The state of the import does not allow this';

  constructor(state: ImportState) {
    super(undefined, { state, allowed: importActionsIn(state) });
  }
}
