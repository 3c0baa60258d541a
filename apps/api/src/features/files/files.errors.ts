import { ApiError } from '../../http/problem.js';

export class FileTypeRefused extends ApiError {
  readonly code = 'files.type-refused';
  readonly status = 422;
  readonly title = 'Files of this type are not kept';

  constructor() {
    super('By its content it is none of these: JPEG, PNG, WebP, PDF.', {
      errors: [{ field: 'file', message: 'must be a JPEG, PNG or WebP image or a PDF document' }],
    });
  }
}

export class ImageUnreadable extends ApiError {
  readonly code = 'files.image-unreadable';
  readonly status = 422;
  readonly title = 'The image cannot be read';

  constructor(megapixels: number) {
    super(undefined, {
      errors: [{ field: 'file', message: `must be a whole image of at most ${megapixels} megapixels` }],
    });
  }
}

export class FileOfSignedSession extends ApiError {
  readonly code = 'files.session-signed';
  readonly status = 409;
  readonly title = 'The session is signed; its files stay as they were';
}

export class FileOfShoeWork extends ApiError {
  readonly code = 'files.of-shoe-work';
  readonly status = 409;
  readonly title = 'The photograph belongs to a step of shoe work; it stays with it';
}
