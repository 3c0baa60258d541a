import { dataOf, type components, type StudioClient } from '@studio/api-client';

/** The sheet once it is made; asks until then. */
export async function onlyWhenReady(
  studio: StudioClient,
  fitSheetId: string,
): Promise<components['schemas']['FitSheetResponse']> {
  for (;;) {
    const sheet = await dataOf(
      studio.GET('/v1/fit-sheets/{fitSheetId}', { params: { path: { fitSheetId } } }),
    );
    if (sheet.state === 'ready') return sheet;
    if (sheet.state === 'failed') throw new Error('the sheet could not be made');
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}
