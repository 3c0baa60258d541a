import { Catch } from '@nestjs/common';
import { ApiError } from '../../http/problem.js';
import { LinkClosed } from './intake-pages.errors.js';
import { ProblemPageFilter, type PageWords } from './problem-page.filter.js';

@Catch()
export class PageFilter extends ProblemPageFilter {
  protected wordsFor(error: unknown): PageWords {
    if (error instanceof LinkClosed) return [error.title, error.whatNow];
    if (error instanceof ApiError && error.status === 404) {
      return [
        'We do not know this link',
        'Perhaps a part of it was cut off: try the whole link from your mail, or ask the studio for a new one.',
      ];
    }
    if (error instanceof ApiError && error.code === 'clients.consent-missing') {
      return [
        'Your consent was taken back',
        'So nothing more is kept. What you had answered before is still there: open the link from your mail to agree again and go on.',
      ];
    }
    return [
      'Something failed on our side',
      'What you had sent before is kept. Please go back and try again in a few minutes.',
    ];
  }
}
