import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, signIn, type StudioClient } from '@studio/api-client';
import type { ChildProcess } from 'node:child_process';
import { setUpAccounts } from '../helpers/accounts.js';
import { uploadPhoto } from '../helpers/files.js';
import { onlyWhenReady } from '../helpers/fit-sheets.js';
import { eventually, mailsTo } from '../helpers/mail.js';
import {
  nothingWrong,
  openMeasuredSession,
  screen,
  signedSession,
  takeOnClient,
  type TestClient,
} from '../helpers/rider.js';
import {
  at,
  collect,
  consent,
  cure,
  doStep,
  doSteps,
  judge,
  openShoeWork,
  plan,
  stepValues,
  type ShoeWork,
} from '../helpers/shoe-work.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';
import { startWorker, stop } from '../helpers/worker.js';

let api: TestApi;
let studio: TestStudio;
let owner: TestStudio['owner'];
let desk: StudioClient;
let fitter: StudioClient;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  ({ owner, desk } = studio);
  const person = { email: `fitter@${studio.studio.handle}.example`, password: 'a password for tests only' };
  await dataOf(owner.POST('/v1/staff', { body: { ...person, displayName: 'Fitter', roles: ['fitter'] } }));
  fitter = await signIn(api.url, { studio: studio.studio.handle, ...person });
});
afterAll(() => api.close());

/** A client whom nothing keeps from shoe work. */
async function rider(answers: Record<string, unknown> = nothingWrong, email?: string): Promise<TestClient> {
  const client = await takeOnClient(owner, email);
  await screen(owner, client.clientId, answers);
  return client;
}
const advance = async (seconds: number): Promise<Date> =>
  new Date((await dataOf(owner.POST('/v1/test-clock/advance', { body: { seconds } }))).now);
const hour = 3600;
const later = (from: Date, hours: number): string =>
  new Date(from.getTime() + hours * hour * 1000).toISOString();
const read = (work: Pick<ShoeWork, 'id'>): Promise<ShoeWork> =>
  dataOf(owner.GET('/v1/shoe-works/{shoeWorkId}', { params: { path: { shoeWorkId: work.id } } }));
const bench = async (name: string): Promise<string> =>
  (await dataOf(owner.POST('/v1/benches', { body: { name } }))).id;

describe('feasibility', () => {
  it('names what is not known of the shoes, and of the client', async () => {
    const { clientId, shoeId } = await takeOnClient(owner);
    const ask = (query: object) =>
      dataOf(
        fitter.GET('/v1/clients/{clientId}/shoes/{shoeId}/shoe-work-feasibility', {
          params: { path: { clientId, shoeId }, query },
        }),
      );
    const unknown = await ask({});
    expect(unknown).toMatchObject({ screened: false, barred: ['cleat_change', 'shoe_work', 'bonding'] });
    const base = unknown.ways.find(({ way }) => way === 'arch_base_four_bolt');
    expect(base).toMatchObject({ result: 'cannot_tell', reasons: [] });
    expect(base?.missing.map(({ fact }) => fact)).toEqual([
      ...['soleMaterial', 'soleCurve', 'cracked', 'recalled'],
    ]);
    await judge(owner, { clientId, shoeId, bikeId: '' });
    await screen(owner, clientId);
    const known = await ask({ cracked: 'no', recalled: 'no' });
    expect(known).toMatchObject({ screened: true, barred: [] });
    expect(known.ways.map(({ way, result }) => [way, result])).toEqual([
      ['slot_extension', 'feasible'],
      ['arch_base_three_bolt', 'not_feasible'],
      ['arch_base_four_bolt', 'feasible'],
    ]);
  });

  it('is asked when a case is opened: what cannot be told is refused like what cannot be', async () => {
    const client = await rider();
    const fitSessionId = await openMeasuredSession(owner, client);
    const open = (change: object = {}) =>
      fitter.POST('/v1/fit-sessions/{fitSessionId}/shoe-works', {
        params: { path: { fitSessionId } },
        body: { ...plan('bonded'), ...change },
      });
    expect((await open()).error).toMatchObject({
      ...{ status: 409, code: 'shoe-work.cannot-tell' },
      missing: [{ fact: 'soleMaterial' }, { fact: 'soleCurve' }],
    });
    await judge(owner, client, { soleCurve: 'strong', soleMaterial: 'carbon' });
    expect((await open()).error).toMatchObject({
      ...{ status: 409, code: 'shoe-work.not-feasible' },
      reasons: [{ code: 'curve-strong' }],
    });
    expect((await open({ way: 'slot_extension' })).error).toMatchObject({
      ...{ status: 422, code: 'shoe-work.not-fixed-so', errors: [{ field: 'fixing' }] },
    });
    expect((await open({ cracked: undefined })).error).toMatchObject({ status: 400 });
    expect(
      (
        await desk.POST('/v1/fit-sessions/{fitSessionId}/shoe-works', {
          params: { path: { fitSessionId } },
          body: plan(),
        })
      ).response.status,
    ).toBe(403);
  });
});

describe('the screening', () => {
  it('bars shoe work with its reason: the rules, or that nobody asked', async () => {
    // Leg pain on walking bars shoe work, not the fit itself.
    const client = await rider({ ...nothingWrong, calf_pain_on_walking: 'yes' });
    await judge(owner, client);
    const fitSessionId = await openMeasuredSession(owner, client);
    const of = { params: { path: { fitSessionId } }, body: plan() };
    const { error } = await fitter.POST('/v1/fit-sessions/{fitSessionId}/shoe-works', of);
    expect(error).toMatchObject({
      ...{ status: 409, code: 'screenings.not-permitted', rules: ['calf-pain-on-walking'] },
    });
  });

  it('is asked again before a sole is changed for good', async () => {
    const client = await rider();
    const work = await doSteps(fitter, await consent(fitter, await openShoeWork(owner, client)), 'drilled');
    expect(work.next.map(({ step }) => step)).toEqual(['drilled', 'photographed']);
    await screen(owner, client.clientId, { ...nothingWrong, calf_pain_on_walking: 'yes' });
    expect((await doStep(fitter, work, 'drilled', 'left')).error).toMatchObject({
      ...{ status: 409, code: 'screenings.not-permitted', rules: ['calf-pain-on-walking'] },
    });
    expect((await read(work)).steps.map(({ step }) => step)).toEqual(['photographed', 'marked']);
  });
});

describe('a case without anything to cure', () => {
  let work: ShoeWork;

  it('shows what to do with what to beware of, and waits for the signature', async () => {
    work = await openShoeWork(owner, await rider());
    expect(work).toMatchObject({
      state: 'opened',
      allowed: ['consented', 'abandoned'],
      consent: null,
      next: [],
    });
    expect(work.cautions).toEqual([]);
    expect((await doStep(fitter, work, 'photographed', 'left')).error).toMatchObject({
      ...{ status: 409, code: 'shoe-work.step-impossible', state: 'opened', allowed: [] },
    });
    const again = await fitter.POST('/v1/fit-sessions/{fitSessionId}/shoe-works', {
      params: { path: { fitSessionId: work.fitSessionId } },
      body: plan(),
    });
    expect(again.error).toMatchObject({ status: 409, code: 'shoe-work.case-open' });
  });

  it('keeps who signed what, when and before whom', async () => {
    const sign = (body: object) =>
      fitter.POST('/v1/shoe-works/{shoeWorkId}/consent', {
        ...at(work),
        body: { signedName: 'Robin Rider', textVersion: '1', language: 'de', ...body },
      });
    expect((await sign({ textVersion: '0' })).error).toMatchObject({
      ...{ status: 422, code: 'shoe-work.consent-text-superseded' },
    });
    const before = work;
    work = await dataOf(sign({}));
    expect(work).toMatchObject({ state: 'consented', allowed: ['in_work', 'abandoned'] });
    expect(work.consent).toMatchObject({ signedName: 'Robin Rider', textVersion: '1', guardianId: null });
    expect(work.consent?.text).toContain('nicht rückgängig');
    expect(Date.parse(work.consent?.signedAt ?? '')).toBeGreaterThan(0);
    expect((await sign({})).error).toMatchObject({
      ...{ status: 409, code: 'shoe-work.state-impossible', allowed: ['in_work', 'abandoned'] },
    });
    work = { ...work, version: before.version };
    expect((await sign({})).response.status).toBe(412);
    work = await read(work);
  });

  it('takes each step once, with its checks, its photographs and in order', async () => {
    const [first] = work.next;
    expect(first).toMatchObject({ step: 'photographed', shoe: 'left', photographed: true });
    expect((await doStep(fitter, work, 'photographed', 'left')).error).toMatchObject({
      ...{ status: 400, errors: [{ field: 'photoIds' }] },
    });
    const ofShoes = await uploadPhoto(owner, work.clientId, { shoeId: work.shoeId });
    const ofNothing = await uploadPhoto(owner, work.clientId);
    const photograph = (photoId: string, values = stepValues['photographed'] ?? {}) =>
      doStep(fitter, work, 'photographed', 'left', { values, photoIds: [photoId] });
    expect((await photograph(ofNothing.id)).error).toMatchObject({
      status: 422,
      errors: [{ field: 'photoIds' }],
    });
    expect((await photograph(ofShoes.id, { soleAndInsideShown: false })).error).toMatchObject({
      ...{ status: 400, errors: [{ field: 'values.soleAndInsideShown' }] },
    });
    const [one, other] = await Promise.all([photograph(ofShoes.id), photograph(ofShoes.id)].map(dataOf));
    expect(other?.steps).toEqual(one?.steps);
    work = await read(work);
    expect(work.steps).toHaveLength(1);
    expect(work).toMatchObject({ state: 'in_work', steps: [{ photoIds: [ofShoes.id] }] });
    expect((await doStep(fitter, work, 'photographed', 'left')).error).toMatchObject({
      ...{ status: 409, code: 'shoe-work.step-done-otherwise' },
    });
    expect((await doStep(fitter, work, 'drilled', 'left')).error).toMatchObject({
      ...{ status: 409, code: 'shoe-work.step-impossible' },
      allowed: [
        { step: 'marked', shoe: 'left' },
        { step: 'photographed', shoe: 'right' },
      ],
    });
    expect((await doStep(fitter, work, 'bonded', 'left')).response.status).toBe(404);
    const removal = await owner.DELETE('/v1/files/{fileId}', { params: { path: { fileId: ofShoes.id } } });
    expect(removal.error).toMatchObject({ status: 409, code: 'files.of-shoe-work' });
  });

  it('names gloves, dust and eyes before the drill is used', async () => {
    work = await dataOf(doStep(fitter, work, 'marked', 'left'));
    const drill = work.next.find(({ step }) => step === 'drilled');
    expect(drill?.hazards.map(({ code }) => code)).toEqual(['eyes', 'dust', 'gloves-against-fibres']);
  });

  it('has nothing to cure, and is to be collected once both soles are done', async () => {
    work = await doSteps(fitter, work);
    expect(work.state).toBe('to_collect');
    expect(work.cautions.map(({ code }) => code)).toContain('not-reversible');
    expect((await cure(fitter, work, later(await advance(1), 24))).error).toMatchObject({
      ...{ status: 409, code: 'shoe-work.state-impossible', allowed: ['abandoned'] },
    });
  });

  it('keeps the shoes until bolts and release were checked, of both', async () => {
    work = await doSteps(fitter, work, 'released_at_standstill');
    const early = await collect(desk, work);
    expect(early.error).toMatchObject({
      ...{ status: 409, code: 'shoe-work.state-impossible', state: 'to_collect' },
      missingSteps: expect.arrayContaining([
        { step: 'released_at_standstill', shoe: 'left' },
        { step: 'released_at_standstill', shoe: 'right' },
      ]),
    });
    expect((await doStep(fitter, work, 'easy_ride', 'left')).error).toMatchObject({ status: 409 });
    work = await doSteps(fitter, work);
    expect(work).toMatchObject({ next: [], allowed: ['collected', 'abandoned'] });
  });

  it('takes parts from the price list, told to the desk for the receipt', async () => {
    await setUpAccounts(owner);
    const part = await dataOf(
      owner.POST('/v1/parts', {
        body: { name: 'Backing plate, pair', kind: 'other', priceMinor: 2500, taxClass: 'standard' },
      }),
    );
    const set = (parts: { partId: string; quantity: number }[]) =>
      fitter.PUT('/v1/shoe-works/{shoeWorkId}/parts', { ...at(work), body: { parts } });
    expect((await set([{ partId: work.shoeId, quantity: 1 }])).error).toMatchObject({
      ...{ status: 422, code: 'reference.unknown' },
    });
    work = await dataOf(set([{ partId: part.id, quantity: 1 }]));
    work = await dataOf(set([{ partId: part.id, quantity: 2 }]));
    expect(work.parts).toEqual([{ partId: part.id, name: 'Backing plate, pair', quantity: 2 }]);
  });

  it('is seen at the desk by its state and dates alone, and handed out there', async () => {
    expect(
      (await desk.GET('/v1/shoe-works/{shoeWorkId}', { params: { path: { shoeWorkId: work.id } } })).response
        .status,
    ).toBe(403);
    const seen = await dataOf(desk.GET('/v1/shoe-works', { params: { query: { clientId: work.clientId } } }));
    expect(seen.items).toHaveLength(1);
    expect(Object.keys(seen.items[0] ?? {}).sort()).toEqual([
      ...['benchId', 'clientId', 'clientName', 'collectedAt', 'id', 'openedAt', 'parts', 'shoes', 'state'],
      ...['toCollectAt', 'version'],
    ]);
    expect((await collect(desk, { ...work, version: 1 })).response.status).toBe(412);
    const gone = await dataOf(collect(desk, work));
    expect(gone).toMatchObject({ state: 'collected', shoes: 'Shoes', parts: [{ quantity: 2 }] });
    expect(gone.collectedAt).not.toBeNull();
  });

  it('is done when the bolts were tightened again after the first ride', async () => {
    work = await doSteps(fitter, await read(work));
    expect(work).toMatchObject({ state: 'done', allowed: [], next: [] });
    expect(work.changes.map(({ state }) => state)).toEqual([
      ...['opened', 'consented', 'in_work', 'to_collect', 'collected', 'done'],
    ]);
    const giveUp = await fitter.POST('/v1/shoe-works/{shoeWorkId}/abandonment', {
      ...at(work),
      body: { reason: 'Too late.' },
    });
    expect(giveUp.error).toMatchObject({ status: 409, allowed: [] });
  });
});

describe('the first ride', () => {
  const stepsOf = async (clientId: string) =>
    (
      await dataOf(owner.GET('/v1/clients/{clientId}/follow-ups', { params: { path: { clientId } } }))
    ).items.map(({ step }) => step.id);
  const through = async (work: ShoeWork): Promise<void> => {
    const consented = await consent(fitter, work);
    const cut = await doSteps(fitter, consented);
    await dataOf(collect(desk, await doSteps(fitter, cut)));
  };

  it('is asked after when the shoes go home after the signature', async () => {
    const client = await rider();
    await judge(owner, client);
    const { fitSessionId } = await signedSession(owner, client);
    expect(await stepsOf(client.clientId)).not.toContain('first-ride');
    const open = { params: { path: { fitSessionId } }, body: plan() };
    await through(await dataOf(fitter.POST('/v1/fit-sessions/{fitSessionId}/shoe-works', open)));
    expect((await stepsOf(client.clientId)).filter((step) => step === 'first-ride')).toHaveLength(1);
  });

  it('and when the signature comes last', async () => {
    const client = await rider();
    await judge(owner, client);
    await signedSession(owner, client, async (fitSessionId) => {
      const open = { params: { path: { fitSessionId } }, body: plan() };
      await through(await dataOf(fitter.POST('/v1/fit-sessions/{fitSessionId}/shoe-works', open)));
      expect(await stepsOf(client.clientId)).toEqual([]);
    });
    expect((await stepsOf(client.clientId)).sort()).toEqual(['first-ride', 'week-2', 'week-6']);
  });
});

describe('what cures', () => {
  const bonded = async () =>
    doSteps(
      fitter,
      await consent(fitter, await openShoeWork(owner, await rider(), { fixing: 'drilled_and_bonded' })),
    );

  it('waits on a bench that nobody else gets, and is not worked on meanwhile', async () => {
    const benchId = await bench('Bench of one');
    const now = await advance(1);
    const until = later(now, 24);
    let work = await openShoeWork(owner, await rider(), { fixing: 'bonded' });
    expect((await cure(fitter, work, until, benchId)).error).toMatchObject({
      ...{ status: 409, code: 'shoe-work.state-impossible' },
      missingSteps: expect.arrayContaining([{ step: 'bonded', shoe: 'right' }]),
    });
    work = await doSteps(fitter, await consent(fitter, work));
    expect(work).toMatchObject({ state: 'in_work', allowed: ['curing', 'abandoned'], next: [] });
    for (const wrong of [later(now, -1), later(now, 31 * 24)]) {
      expect((await cure(fitter, work, wrong, benchId)).error).toMatchObject({
        errors: [{ field: 'until' }],
      });
    }
    expect((await cure(fitter, work, until, work.id)).error).toMatchObject({
      errors: [{ field: 'benchId' }],
    });
    work = await dataOf(cure(fitter, work, until, benchId));
    expect(work).toMatchObject({ state: 'curing', next: [], toCollectAt: until, curing: { benchId, until } });
    expect((await doStep(fitter, work, 'inside_checked', 'left')).error).toMatchObject({
      ...{ status: 409, code: 'shoe-work.step-impossible', state: 'curing' },
    });

    const second = await bonded();
    expect((await cure(fitter, second, until, benchId)).error).toMatchObject({
      ...{ status: 409, code: 'shoe-work.bench-taken', clash: { endsAt: until } },
    });
    const day = until.slice(0, 10);
    const { benches } = await dataOf(desk.GET('/v1/day-sheet', { params: { query: { day } } }));
    expect(benches.filter((lying) => lying.bench.id === benchId)).toMatchObject([
      { shoeWorkId: work.id, appointmentId: null, clientName: 'Robin Rider' },
    ]);

    await advance(25 * hour);
    work = await read(work);
    expect(work).toMatchObject({
      state: 'to_collect',
      allowed: ['curing', 'abandoned'],
    });
    // It has not cured after all.
    const longer = later(await advance(1), 5);
    work = await dataOf(cure(fitter, work, longer, benchId));
    expect(work).toMatchObject({ state: 'curing', toCollectAt: longer });
    work = await dataOf(
      fitter.POST('/v1/shoe-works/{shoeWorkId}/abandonment', {
        ...at(work),
        body: { reason: 'The bond did not hold.' },
      }),
    );
    expect(work.changes.at(-1)).toMatchObject({ state: 'abandoned', reason: 'The bond did not hold.' });
    await dataOf(cure(fitter, second, longer, benchId));
  });

  it('and a visit cannot be booked onto it, nor is that offered', async () => {
    const other = await openTestStudio(api);
    const benchId = (await dataOf(other.owner.POST('/v1/benches', { body: { name: 'Only bench' } }))).id;
    const service = await dataOf(
      other.owner.POST('/v1/services', {
        body: { name: 'Shoe work', durationMinutes: 30, curingMinutes: 600 },
      }),
    );
    await dataOf(
      other.owner.POST('/v1/weekly-hours', {
        body: { weekdays: [1, 2, 3, 4, 5, 6, 7], from: '00:00', until: '23:00', validFrom: '2020-01-01' },
      }),
    );
    const client = await takeOnClient(other.owner);
    await screen(other.owner, client.clientId);
    let work = await openShoeWork(other.owner, client, { fixing: 'bonded' });
    work = await doSteps(other.owner, await consent(other.owner, work));
    const now = await advance(1);
    const until = later(now, 48);

    const visit = (startsAt: string) =>
      other.desk.POST('/v1/appointments', {
        body: {
          ...{ clientId: client.clientId, serviceId: service.id, roomId: other.roomId, startsAt },
          ...{ fitterId: other.owner.signedIn.id, evenOutsideHours: true },
        },
      });
    const slotsOn = async (firstDay: string): Promise<number> => {
      const query = { serviceId: service.id, firstDay, lastDay: firstDay };
      const { days } = await dataOf(other.desk.GET('/v1/availability', { params: { query } }));
      return days.flatMap(({ slots }) => slots).length;
    };
    const tomorrow = later(now, 24).slice(0, 10);
    expect(await slotsOn(tomorrow)).toBeGreaterThan(0);
    // A visit that is booked already stands in the way of the case,
    const booked = await dataOf(visit(later(now, 20)));
    expect((await cure(other.owner, work, until, benchId)).error).toMatchObject({
      ...{ status: 409, code: 'shoe-work.bench-taken', clash: { startsAt: booked.endsAt } },
    });
    await dataOf(
      other.desk.POST('/v1/appointments/{appointmentId}/cancellation', {
        params: { path: { appointmentId: booked.id }, header: { 'If-Match': `"${booked.version}"` } },
        body: { reason: 'Ill.' },
      }),
    );
    await dataOf(cure(other.owner, work, until, benchId));
    // and the case in that of the next visit.
    expect(await slotsOn(tomorrow)).toBe(0);
    expect((await visit(later(now, 20))).error).toMatchObject({
      status: 409,
      code: 'appointments.no-bench-free',
    });
    expect((await visit(later(now, 49))).response.status).toBe(201);
  });

  it('lies with the visit it is done in', async () => {
    const benchId = await bench('Bench of a visit');
    const service = await dataOf(
      owner.POST('/v1/services', { body: { name: 'Bonding', durationMinutes: 30, curingMinutes: 600 } }),
    );
    const client = await rider();
    const now = await advance(1);
    const appointment = await dataOf(
      desk.POST('/v1/appointments', {
        body: {
          ...{ clientId: client.clientId, serviceId: service.id, roomId: studio.roomId, benchId },
          ...{ fitterId: owner.signedIn.id, startsAt: later(now, 1), evenOutsideHours: true },
        },
      }),
    );
    const alien = await rider();
    await judge(owner, alien);
    const wrong = await fitter.POST('/v1/fit-sessions/{fitSessionId}/shoe-works', {
      params: { path: { fitSessionId: await openMeasuredSession(owner, alien) } },
      body: { ...plan(), appointmentId: appointment.id },
    });
    expect(wrong.error).toMatchObject({ status: 422, errors: [{ field: 'appointmentId' }] });
    let work = await openShoeWork(owner, client, { fixing: 'bonded', appointmentId: appointment.id });
    work = await doSteps(fitter, await consent(fitter, work));
    await advance(hour);
    work = await dataOf(cure(fitter, work, later(now, 30), benchId));
    const day = later(now, 30).slice(0, 10);
    const { benches } = await dataOf(desk.GET('/v1/day-sheet', { params: { query: { day } } }));
    const here = benches.filter((lying) => lying.bench.id === benchId);
    expect(here).toMatchObject([{ shoeWorkId: work.id, appointmentId: appointment.id }]);
    const { items } = await dataOf(
      desk.GET('/v1/messages', { params: { query: { clientId: client.clientId } } }),
    );
    const states = Object.fromEntries(items.map(({ template, state }) => [template, state]));
    expect(states).toMatchObject({ curing_done: 'cancelled', shoe_work_cured: 'queued' });
  });
});

describe('a minor', () => {
  it('signs nothing: the guardian does, and one has to be known', async () => {
    const client = await rider({ ...nothingWrong, age_years: 16, guardian_agrees: 'yes' });
    const work = await openShoeWork(owner, client);
    const path = { params: { path: { clientId: client.clientId } } };
    const known = await dataOf(owner.GET('/v1/clients/{clientId}', path));
    const change = (body: { bornOn?: string; guardianId?: string }, version: number) =>
      dataOf(
        owner.PATCH('/v1/clients/{clientId}', {
          params: { ...path.params, header: { 'If-Match': `"${version}"` } },
          body,
        }),
      );
    const bornOn = `${new Date().getUTCFullYear() - 15}-01-01`;
    const young = await change({ bornOn }, known.version);
    const sign = {
      ...at(work),
      body: { signedName: 'Kim Rider', textVersion: '1', language: 'en' as const },
    };
    const refused = await fitter.POST('/v1/shoe-works/{shoeWorkId}/consent', sign);
    expect(refused.error).toMatchObject({ code: 'clients.guardian-missing' });
    const guardian = await dataOf(
      owner.POST('/v1/clients', { body: { givenName: 'Kim', familyName: 'Rider' } }),
    );
    await change({ guardianId: guardian.id }, young.version);
    const signed = await dataOf(fitter.POST('/v1/shoe-works/{shoeWorkId}/consent', sign));
    expect(signed.consent).toMatchObject({ signedName: 'Kim Rider', guardianId: guardian.id });
  });
});

describe('the owner’s workload', () => {
  it('counts pairs whose soles were worked on, by who did it; not what was only opened', async () => {
    const other = await openTestStudio(api);
    const [first, second] = [await takeOnClient(other.owner), await takeOnClient(other.owner)];
    for (const { clientId } of [first, second]) await screen(other.owner, clientId);
    const worked = await openShoeWork(other.owner, first);
    await openShoeWork(other.owner, second);
    const now = await advance(1);
    const count = async (fitterId?: string): Promise<number> => {
      const [from, until] = [later(now, -24).slice(0, 10), later(now, 24).slice(0, 10)];
      const query = { from, until, ...(fitterId && { fitterId }) };
      return (await dataOf(other.owner.GET('/v1/outcomes/workload', { params: { query } }))).shoeWork;
    };
    const ready = await doSteps(other.owner, await consent(other.owner, worked), 'drilled');
    expect(await count()).toBe(0);
    await doSteps(other.owner, ready);
    expect(await count()).toBe(1);
    expect(await count(other.owner.signedIn.id)).toBe(1);
  });
});

describe('when it has cured', () => {
  let worker: ChildProcess;
  beforeAll(() => {
    worker = startWorker(api, 'shoe-work');
  });
  afterAll(() => stop(worker));

  it('the client and the desk are told, and the fit sheet tells the rest', async () => {
    const email = `shoes@${studio.studio.handle}.example`;
    const client = await rider(nothingWrong, email);
    let work = await openShoeWork(owner, client, { fixing: 'drilled_and_bonded' });
    work = await doSteps(fitter, await consent(fitter, work));
    // At noon, when no hours are quiet.
    const now = await advance(1);
    const noon = new Date(Date.UTC(now.getUTCFullYear(), now.getUTCMonth(), now.getUTCDate() + 1, 11));
    work = await dataOf(cure(fitter, work, noon.toISOString()));
    await advance(Math.ceil((noon.getTime() - now.getTime()) / 1000));
    const [mail] = await eventually('the mail', 40, async () => {
      const mails = (await mailsTo(email)).filter(({ subject }) => subject === 'Your shoes have cured');
      return mails.length > 0 ? mails : undefined;
    });
    expect(mail?.text).toContain('both feet come out of the pedals before you ride');
    const task = await eventually('the task', 40, async () => {
      const query = { clientId: client.clientId };
      return (await dataOf(desk.GET('/v1/tasks', { params: { query } }))).items[0];
    });
    expect(task).toMatchObject({
      ...{ kind: 'shoe_work_to_collect', role: 'front_desk', subjectId: work.id, dueAt: noon.toISOString() },
    });

    work = await doSteps(fitter, await read(work));
    await dataOf(collect(desk, work));
    expect(
      (await dataOf(desk.GET('/v1/tasks', { params: { query: { clientId: client.clientId } } }))).items,
    ).toEqual([]);
    const order = {
      params: { path: { fitSessionId: work.fitSessionId } },
      body: { audience: 'rider' as const },
    };
    const { id } = await dataOf(owner.POST('/v1/fit-sessions/{fitSessionId}/fit-sheets', order));
    const { documents } = await onlyWhenReady(owner, id);
    const page = documents.find(({ name }) => name === 'page.html');
    const html = await (await fetch(page?.url ?? '')).text();
    expect(html).toContain('Shoe work');
    expect(html).toContain('5 N·m');
    expect(html).toContain('cannot be undone, and the maker’s warranty is likely void');
  });
});
