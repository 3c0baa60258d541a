import { ApiError } from '../../http/problem.js';

export class ConsentStands extends ApiError {
  readonly code = 'clients.consent-stands';
  readonly status = 409;
  readonly title = 'This consent stands already';
}

export class ConsentMissing extends ApiError {
  readonly code = 'clients.consent-missing';
  readonly status = 409;
  readonly title = 'The client has not consented to this';
}

export class ClientMerged extends ApiError {
  readonly code = 'clients.merged';
  readonly status = 409;
  readonly title = 'This record was merged into another one of the same person';

  constructor(survivingClientId: string) {
    super(undefined, { survivingClientId });
  }
}

export class ClientRestricted extends ApiError {
  readonly code = 'clients.restricted';
  readonly status = 409;
  readonly title = 'This record is only kept: nothing is added to it';
}

export class MergeImpossible extends ApiError {
  readonly code = 'clients.merge-impossible';
  readonly status = 422;
  readonly title = 'These two cannot be the same person';

  constructor(message: string) {
    super(undefined, { errors: [{ field: 'mergedClientId', message }] });
  }
}

export class MergeUndone extends ApiError {
  readonly code = 'clients.merge-undone';
  readonly status = 409;
  readonly title = 'This merge was undone already';
}

export class LaterMergeFirst extends ApiError {
  readonly code = 'clients.later-merge-first';
  readonly status = 409;
  readonly title = 'A later merge of the same client has to be undone first';

  constructor(mergeId: string) {
    super(undefined, { mergeId });
  }
}

export class LinkedAlready extends ApiError {
  readonly code = 'clients.linked-already';
  readonly status = 409;
  readonly title = 'The two are linked like this already';
}

export class LinkedToItself extends ApiError {
  readonly code = 'clients.linked-to-itself';
  readonly status = 422;
  readonly title = 'A client is linked to another one';

  constructor() {
    super(undefined, { errors: [{ field: 'otherClientId', message: 'names the same person' }] });
  }
}

export class GuardianMissing extends ApiError {
  readonly code = 'clients.guardian-missing';
  readonly status = 409;
  readonly title = 'The client is a minor: a guardian has to consent';
}

export class GuardianIsNoAdult extends ApiError {
  readonly code = 'clients.guardian-is-no-adult';
  readonly status = 422;
  readonly title = 'A guardian is another client, and of age';

  constructor() {
    super(undefined, { errors: [{ field: 'guardianId', message: 'names the client itself or a minor' }] });
  }
}
