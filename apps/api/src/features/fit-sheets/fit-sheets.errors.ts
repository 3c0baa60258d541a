import { LinkClosed } from '../intake-pages/index.js';

export class FitSheetLinkRunOut extends LinkClosed {
  readonly code = 'fit-sheets.link-run-out';
  readonly title = 'This link has run out';
  readonly whatNow = 'Your sheet is kept. Please ask the studio for a new link, or for a copy on paper.';
}
