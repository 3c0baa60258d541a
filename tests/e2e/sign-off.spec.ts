import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import pg from 'pg';
import { baseline, openMeasuredSession, position, screen, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

type Position = components['schemas']['PositionRequest'];

let api: TestApi;
let studio: TestStudio;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
});
afterAll(() => api.close());

async function openSession(client: { language?: string } = {}) {
  const taken = await takeOnClient(studio.owner);
  if (client.language) {
    const of = { path: { clientId: taken.clientId } };
    const { data, response } = await studio.owner.GET('/v1/clients/{clientId}', { params: of });
    expect(data).toBeDefined();
    const header = { 'If-Match': response.headers.get('etag') ?? '' };
    await dataOf(
      studio.owner.PATCH('/v1/clients/{clientId}', { params: { ...of, header }, body: { ...client } }),
    );
  }
  await screen(studio.desk, taken.clientId);
  return { path: { fitSessionId: await openMeasuredSession(studio.owner, taken) } };
}
type Session = Awaited<ReturnType<typeof openSession>>;

const putPosition = ({ path }: Session, stage: 'found' | 'left', body: Position) =>
  dataOf(
    studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/positions/{stage}', {
      params: { path: { ...path, stage } },
      body,
    }),
  );
async function recordAll(session: Session, left: Position = position): Promise<void> {
  await dataOf(
    studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/baseline', { params: session, body: baseline }),
  );
  await putPosition(session, 'found', position);
  await putPosition(session, 'left', left);
}
const signOff = (params: Session) =>
  dataOf(studio.owner.GET('/v1/fit-sessions/{fitSessionId}/sign-off', { params }));
const sign = (params: Session, followUpPlanId?: string) =>
  studio.owner.POST('/v1/fit-sessions/{fitSessionId}/sign-off', {
    params,
    ...(followUpPlanId !== undefined && { body: { followUpPlanId } }),
  });
const advise = ({ path }: Session, items: string[], version: number) =>
  studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/advice', {
    params: { path, header: { 'If-Match': `"${version}"` } },
    body: { items },
  });

describe('before a session is signed', () => {
  it('is told what is missing, and signing it says the same', async () => {
    const session = await openSession();
    const { missing } = await signOff(session);
    expect(missing.map(({ what }) => what)).toEqual(['baseline', 'position_found', 'position_left']);
    expect((await sign(session)).error).toMatchObject({
      status: 409,
      code: 'fit-sessions.incomplete',
      missing: missing.map(({ what }) => what),
    });
    // In any order: the last of the visit first.
    await recordAll(session);
    expect((await signOff(session)).missing).toEqual([]);
  });

  it('suggests advice and a follow-up plan by how far a cleat went', async () => {
    const session = await openSession();
    expect(await signOff(session)).toMatchObject({
      // Nothing says that no cleat was moved.
      advice: { stage: 'small_change', language: 'en', writtenBy: null, version: 1 },
      followUpPlan: { id: 'small-change' },
    });
    await recordAll(session, { ...position, cleatBehindMth1LeftMm: 32 });
    expect(await signOff(session)).toMatchObject({
      advice: { stage: 'medium_change' },
      followUpPlan: { id: 'large-cleat-change' },
    });
    await putPosition(session, 'left', { ...position, cleatBehindMth1RightMm: 41 });
    expect((await signOff(session)).advice.stage).toBe('large_change');
  });

  it('takes the advice as the fitter writes it, from the version they saw', async () => {
    const session = await openSession({ language: 'de-AT' });
    const suggested = await signOff(session);
    expect(suggested.advice.language).toBe('de');
    expect(suggested.advice.items.at(-1)).toContain('Notruf');
    const written = await dataOf(advise(session, ['Zehn Tage nur auf der Rolle.'], 1));
    expect(written).toMatchObject({
      items: ['Zehn Tage nur auf der Rolle.'],
      writtenBy: studio.owner.signedIn.id,
      version: 2,
    });
    expect((await advise(session, ['Something else.'], 1)).error).toMatchObject({ status: 412 });
    expect(await dataOf(advise(session, ['Zwölf Tage nur auf der Rolle.'], 2))).toMatchObject({ version: 3 });
    expect((await advise(session, [''], 3)).error).toMatchObject({
      status: 400,
      errors: [{ field: 'items' }],
    });
    expect((await signOff(session)).advice.items).toEqual(['Zwölf Tage nur auf der Rolle.']);
  });
});

describe('a signed session', () => {
  it('is followed by the plan that was chosen, which has to be one', async () => {
    const session = await openSession();
    await recordAll(session, { ...position, cleatBehindMth1LeftMm: 32 });
    expect((await sign(session, 'no-such-plan')).error).toMatchObject({
      status: 422,
      errors: [{ field: 'followUpPlanId' }],
    });
    const { followUps } = await dataOf(sign(session, 'small-change'));
    expect(followUps.map(({ week }) => week)).toEqual([2, 6]);

    const byDefault = await openSession();
    await recordAll(byDefault, { ...position, cleatBehindMth1LeftMm: 32 });
    expect((await dataOf(sign(byDefault))).followUps).toHaveLength(4);
  });

  it('keeps what the rider was told, written or suggested, and tells when a row of it is changed', async () => {
    const session = await openSession();
    await recordAll(session);
    const { advice } = await dataOf(sign(session));
    expect(advice).toMatchObject({ stage: 'cleats_kept', writtenBy: null, version: 1 });
    expect((await advise(session, ['Ride as you like.'], 1)).error).toMatchObject({
      status: 409,
      code: 'fit-sessions.signed',
    });
    const { fitSessionId } = session.path;
    const admin = new pg.Client({ connectionString: api.database.adminUrl });
    await admin.connect();
    const change = `UPDATE session_advice SET items = '{Ride as you like.}' WHERE fit_session_id = $1`;
    await expect(admin.query(change, [fitSessionId])).rejects.toMatchObject({
      constraint: 'fit_sessions_signed_is_final',
    });
    await admin.query('BEGIN');
    await admin.query(`SET LOCAL session_replication_role = 'replica'`);
    await admin.query(change, [fitSessionId]);
    await admin.query('COMMIT');
    await admin.end();
    const { broken } = await dataOf(studio.owner.GET('/v1/record-verification'));
    expect(broken).toEqual([
      expect.objectContaining({ fitSessionId, part: 'session_advice', what: 'altered', fields: ['items'] }),
    ]);
  });

  it('is amended beside the record, each amendment signed by its writer', async () => {
    const session = await openSession();
    await recordAll(session);
    const signed = await dataOf(sign(session));
    const amended = await dataOf(
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/amendments', {
        params: session,
        body: { text: 'The stem is 100 mm.' },
      }),
    );
    expect(amended).toMatchObject({
      contentHash: signed.contentHash,
      positions: signed.positions,
      amendments: [{ text: 'The stem is 100 mm.', writtenBy: studio.owner.signedIn.id }],
    });
    const signatures = await dataOf(
      studio.owner.GET('/v1/fit-sessions/{fitSessionId}/signatures', { params: session }),
    );
    expect(signatures.map(({ kind, amendmentId }) => [kind, amendmentId])).toEqual([
      ['session', null],
      ['amendment', amended.amendments[0]?.id],
    ]);
  });
});
