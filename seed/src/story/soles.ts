import { dataOf, type StudioClient } from '@studio/api-client';
import { refused, type Studio } from './studio.js';
import { holds, say } from './tell.js';

const epoxy = { adhesive: 'Two-part epoxy.', cureAsTold: 'Maker’s sheet: 24 h at 20 °C.' };

/** Soles are worked on: not before all is known and signed, step by step, and then they lie curing on a bench. */
export async function workOnSoles({ owner, fitter }: Studio, fitSessionId: string): Promise<void> {
  const session = { params: { path: { fitSessionId } } };
  const { clientId, shoeId } = await dataOf(fitter.GET('/v1/fit-sessions/{fitSessionId}', session));
  const wish = { way: 'arch_base_four_bolt', fixing: 'bonded', cracked: false, recalled: false } as const;
  const open = () =>
    dataOf(fitter.POST('/v1/fit-sessions/{fitSessionId}/shoe-works', { ...session, body: wish }));
  const early = await refused(open());
  holds('what is not known of a sole is no reassurance', early.code === 'shoe-work.cannot-tell');
  say(`A base is to be bonded to the soles. Not yet: “${early.message}”`);

  const pair = { clientId, shoeId };
  const { version } = await dataOf(
    fitter.GET('/v1/clients/{clientId}/shoes/{shoeId}', { params: { path: pair } }),
  );
  await dataOf(
    fitter.PATCH('/v1/clients/{clientId}/shoes/{shoeId}', {
      params: { path: pair, header: { 'If-Match': `"${version}"` } },
      body: { soleMaterial: 'carbon', soleCurve: 'slight' },
    }),
  );
  let work = await open();
  const path = { shoeWorkId: work.id };
  const now = () => ({ params: { path, header: { 'If-Match': `"${work.version}"` } } });
  work = await dataOf(
    fitter.POST('/v1/shoe-works/{shoeWorkId}/consent', {
      ...now(),
      body: { signedName: 'As on paper', textVersion: '1', language: 'en' },
    }),
  );
  const photoIds = [await photograph(fitter, pair)];
  for (const shoe of ['left', 'right'] as const) {
    const done = [
      { step: 'photographed', values: { soleAndInsideShown: true }, photoIds },
      { step: 'marked', values: { cleatFromHeelMm: 145, measuredTwice: true }, photoIds: [] },
      { step: 'bonded', values: epoxy, photoIds: [] },
    ] as const;
    for (const { step, values, photoIds: shown } of done) {
      const params = { path: { ...path, step, shoe } };
      const body = { values, photoIds: [...shown] };
      work = await dataOf(fitter.PUT('/v1/shoe-works/{shoeWorkId}/steps/{step}/{shoe}', { params, body }));
    }
  }
  const signedAt = Date.parse(work.consent?.signedAt ?? '');
  const until = new Date(signedAt + 24 * 3_600_000).toISOString();
  const cure = { benchId: await workbench(owner), until, source: epoxy.cureAsTold };
  work = await dataOf(fitter.POST('/v1/shoe-works/{shoeWorkId}/curing', { ...now(), body: cure }));
  holds('nothing is fitted while it cures', work.state === 'curing' && work.next.length === 0);
  say(
    `All known, signed, photographed, bonded: they lie on the bench until ${until}, and nobody else gets it. ` +
      `Then client and desk are told; nobody rides before both feet came out of the pedals.`,
  );
}

/** Unless there is one from an earlier run. */
async function workbench(owner: StudioClient): Promise<string> {
  const { items } = await dataOf(owner.GET('/v1/benches'));
  return items[0]?.id ?? (await dataOf(owner.POST('/v1/benches', { body: { name: 'Workbench' } }))).id;
}

/** The smallest picture there is stands for the sole. */
async function photograph(
  fitter: StudioClient,
  { clientId, shoeId }: { clientId: string; shoeId: string },
): Promise<string> {
  const grey = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==';
  const form = new FormData();
  form.append('shoeId', shoeId);
  form.append('file', new Blob([new Uint8Array(Buffer.from(grey, 'base64'))]), 'sole.png');
  const { id } = await dataOf(
    fitter.POST('/v1/clients/{clientId}/files', {
      params: { path: { clientId } },
      body: { file: 'sole.png', shoeId },
      bodySerializer: () => form,
    }),
  );
  return id;
}
