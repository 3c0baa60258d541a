import { dataOf } from '@studio/api-client';
import type { Studio } from './studio.js';
import { holds, say } from './tell.js';

const askAgainMs = 200;
const longestMs = 60_000;

/** The fit sheet that a rider goes home with. */
export async function handOverSheet({ fitter }: Studio, fitSessionId: string): Promise<void> {
  const order = { params: { path: { fitSessionId } }, body: { audience: 'rider' as const } };
  let sheet = await dataOf(fitter.POST('/v1/fit-sessions/{fitSessionId}/fit-sheets', order));
  for (let waited = 0; sheet.state === 'ordered' && waited < longestMs; waited += askAgainMs) {
    await new Promise((resolve) => setTimeout(resolve, askAgainMs));
    const path = { fitSheetId: sheet.id };
    sheet = await dataOf(fitter.GET('/v1/fit-sheets/{fitSheetId}', { params: { path } }));
  }
  holds('the fit sheet is made', sheet.state === 'ready');
  const [pdf, page] = sheet.documents;
  const read = await fetch(pdf?.url ?? '');
  holds('the sheet is a PDF', read.headers.get('content-type') === 'application/pdf');
  const kilobytes = Math.round((await read.arrayBuffer()).byteLength / 1024);
  say(
    `The first rider goes home with a fit sheet: a PDF of ${kilobytes} KB, ${sheet.documents.length - 2} drawings,`,
  );
  say(`and for the next five minutes the same as a page: ${page?.url ?? ''}`);
}
