import { Catch } from '@nestjs/common';
import { ApiError } from '../../http/problem.js';
import { ProblemPageFilter, type PageWords } from '../intake-pages/index.js';
import { closedWords } from './offer-pages.js';
import { OfferAnswered } from './waiting-list.errors.js';

@Catch()
export class OfferPageFilter extends ProblemPageFilter {
  protected wordsFor(error: unknown): PageWords {
    if (error instanceof OfferAnswered && error.state !== 'open') return closedWords[error.state];
    if (error instanceof ApiError && error.status === 404) {
      return [
        'We do not know this link',
        'Perhaps a part of it was cut off: try the whole link from your mail, or call the studio.',
      ];
    }
    // Why somebody may not be booked is for the studio to say, by phone.
    if (error instanceof ApiError && error.status === 409) {
      return ['Please call the studio', 'Before this time can be yours the studio has to talk to you.'];
    }
    return ['Something failed on our side', 'Please try again in a few minutes, or call the studio.'];
  }
}
