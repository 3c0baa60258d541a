import { dataOf, type components, type StudioClient } from '@studio/api-client';
import { uploadPhoto } from './files.js';
import { openMeasuredSession, type TestClient } from './rider.js';

type Schemas = components['schemas'];
export type ShoeWork = Schemas['ShoeWorkResponse'];
export type Fixing = ShoeWork['fixing'];

/** Say of a pair what has to be known before it is worked on. */
export async function judge(
  studio: StudioClient,
  { clientId, shoeId }: TestClient,
  facts: Schemas['UpdateShoeRequest'] = { soleCurve: 'slight', soleMaterial: 'carbon' },
): Promise<void> {
  const path = { clientId, shoeId };
  const { version } = await dataOf(studio.GET('/v1/clients/{clientId}/shoes/{shoeId}', { params: { path } }));
  await dataOf(
    studio.PATCH('/v1/clients/{clientId}/shoes/{shoeId}', {
      params: { path, header: { 'If-Match': `"${version}"` } },
      body: facts,
    }),
  );
}

export const plan = (fixing: Fixing = 'drilled'): Schemas['OpenShoeWorkRequest'] => ({
  way: fixing === 'drilled' ? 'slot_extension' : 'arch_base_four_bolt',
  ...{ fixing, cracked: false, recalled: false },
});

/** A case for the pair of a client who was screened. */
export async function openShoeWork(
  studio: StudioClient,
  client: TestClient,
  request: Partial<Schemas['OpenShoeWorkRequest']> = {},
): Promise<ShoeWork> {
  await judge(studio, client);
  const fitSessionId = await openMeasuredSession(studio, client);
  return dataOf(
    studio.POST('/v1/fit-sessions/{fitSessionId}/shoe-works', {
      params: { path: { fitSessionId } },
      body: { ...plan(request.fixing), ...request },
    }),
  );
}

export const at = ({ id, version }: Pick<ShoeWork, 'id' | 'version'>) => ({
  params: { path: { shoeWorkId: id }, header: { 'If-Match': `"${version}"` } },
});

export const consent = (studio: StudioClient, work: ShoeWork): Promise<ShoeWork> =>
  dataOf(
    studio.POST('/v1/shoe-works/{shoeWorkId}/consent', {
      ...at(work),
      body: { signedName: 'Robin Rider', textVersion: '1', language: 'en' },
    }),
  );

/** What each step is written down with when all is well. */
export const stepValues: Readonly<Record<string, Record<string, unknown>>> = {
  photographed: { soleAndInsideShown: true },
  marked: { cleatFromHeelMm: 182, measuredTwice: true },
  drilled: { holes: 3, depthStop: true },
  bonded: { adhesive: 'Two-part epoxy.', cureAsTold: 'Maker’s sheet: 24 h at 20 °C.' },
  nuts_seated: { seated: true },
  inside_checked: { nothingThroughInsole: true },
  torqued: { torqueNm: 5, torqueFrom: 'Maker’s leaflet.' },
  released_at_standstill: { releasesEachTime: true },
  easy_ride: { nothingMoved: true },
  torqued_again: { torqueNm: 5, torqueFrom: 'Maker’s leaflet.' },
};

type StepId = 'photographed' | 'marked' | 'drilled' | 'bonded' | 'torqued' | 'nuts_seated';

export const doStep = (
  studio: StudioClient,
  work: ShoeWork,
  step: string,
  shoe: 'left' | 'right',
  body: Schemas['ShoeWorkStepRequest'] = { values: stepValues[step] ?? {} },
) =>
  studio.PUT('/v1/shoe-works/{shoeWorkId}/steps/{step}/{shoe}', {
    params: { path: { shoeWorkId: work.id, step: step as StepId, shoe } },
    body,
  });

/** Write down everything that may be, step by step, until nothing more may or the case came to another state. */
export async function doSteps(studio: StudioClient, work: ShoeWork, until?: string): Promise<ShoeWork> {
  let now = work;
  const photo = await uploadPhoto(studio, work.clientId, { shoeId: work.shoeId });
  for (;;) {
    const [next] = now.next;
    if (!next || next.step === until) return now;
    const body = {
      values: stepValues[next.step] ?? {},
      ...(next.photographed && { photoIds: [photo.id] }),
    };
    now = await dataOf(doStep(studio, now, next.step, next.shoe, body));
    if (now.state !== work.state && now.state !== 'in_work') return now;
  }
}

export const cure = (studio: StudioClient, work: ShoeWork, until: string, benchId: string | null = null) =>
  studio.POST('/v1/shoe-works/{shoeWorkId}/curing', {
    ...at(work),
    body: { benchId, until, source: 'Maker’s sheet: 24 h at 20 °C.' },
  });

export const collect = (studio: StudioClient, work: Pick<ShoeWork, 'id' | 'version'>) =>
  studio.POST('/v1/shoe-works/{shoeWorkId}/collection', at(work));
