import { Catch } from '@nestjs/common';
import { ProblemPageFilter, type PageWords } from '../intake-pages/index.js';
import { PasswordLinkSpent } from './sign-ins.errors.js';

@Catch()
export class ChoosePasswordFilter extends ProblemPageFilter {
  protected override readonly forStaff = true;

  protected wordsFor(error: unknown): PageWords {
    if (error instanceof PasswordLinkSpent) {
      return [
        'This link was used or has run out',
        'Perhaps a part of it was cut off: try the whole link from your mail. Otherwise ask for another one.',
      ];
    }
    return [
      'Something failed on our side',
      'No password was changed. Please try again in a few minutes by the link from your mail.',
    ];
  }
}
