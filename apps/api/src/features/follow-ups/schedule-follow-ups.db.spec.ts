import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import pg from 'pg';
import {
  baseline,
  position,
  screen,
  signedSession,
  takeOnClient,
} from '../../../../../tests/helpers/rider.js';
import {
  openTestStudio,
  startTestApi,
  type TestApi,
  type TestStudio,
} from '../../../../../tests/helpers/studio.js';

type FollowUp = components['schemas']['FollowUpLineResponse'];
type Position = components['schemas']['PositionRequest'];

let api: TestApi;
let studio: TestStudio;
let admin: pg.Client;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  admin = new pg.Client({ connectionString: api.database.adminUrl });
  await admin.connect();
});
afterAll(async () => {
  await admin.end();
  await api.close();
});

const daysFromNow = (days: number): string =>
  new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10);

/** A signed session in which the left cleat was moved so far back. */
async function fitted(movedBackMm = 0): Promise<{ clientId: string; fitSessionId: string }> {
  const client = await takeOnClient(studio.owner);
  await screen(studio.desk, client.clientId);
  const { id: fitSessionId } = await dataOf(studio.owner.POST('/v1/fit-sessions', { body: client }));
  const of = { params: { path: { fitSessionId } } };
  await dataOf(studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/baseline', { ...of, body: baseline }));
  const left: Position = {
    ...position,
    cleatBehindMth1LeftMm: position.cleatBehindMth1LeftMm + movedBackMm,
  };
  for (const [stage, body] of [
    ['found', position],
    ['left', left],
  ] as const) {
    const params = { path: { fitSessionId, stage } };
    await dataOf(studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/positions/{stage}', { params, body }));
  }
  await dataOf(studio.owner.POST('/v1/fit-sessions/{fitSessionId}/sign-off', of));
  return { clientId: client.clientId, fitSessionId };
}

const list = async (clientId: string): Promise<FollowUp[]> =>
  (await dataOf(studio.desk.GET('/v1/clients/{clientId}/follow-ups', { params: { path: { clientId } } })))
    .items;
const told = async (clientId: string): Promise<string[]> =>
  (await list(clientId)).map(({ step, state }) => `${step.id} ${state}`);
const withdraw = (clientId: string, kind: 'contact' | 'health_data') =>
  dataOf(
    studio.desk.POST('/v1/clients/{clientId}/consents/{kind}/withdrawal', {
      params: { path: { clientId, kind } },
    }),
  );
const giveAgain = (clientId: string, kind: 'contact' | 'health_data') =>
  dataOf(
    studio.desk.POST('/v1/clients/{clientId}/consents', {
      params: { path: { clientId } },
      body: { kind, textVersion: '2' },
    }),
  );
/** Orders that will see to a follow-up, by when. */
const orders = async (followUpId: string): Promise<string[]> =>
  (
    await admin.query<{ at: Date }>(
      `SELECT available_at AS at FROM outbox WHERE payload ->> 'followUpId' = $1 ORDER BY available_at`,
      [followUpId],
    )
  ).rows.map(({ at }) => at.toISOString());

describe('the plan of a session', () => {
  it.each([
    [0, ['week-2 scheduled', 'week-6 scheduled']],
    [9.5, ['week-2 scheduled', 'week-6 scheduled']],
    [24, ['day-3 scheduled', 'week-2 scheduled', 'week-6 scheduled', 'month-6 scheduled']],
    [-12, ['day-3 scheduled', 'week-2 scheduled', 'week-6 scheduled', 'month-6 scheduled']],
  ])('follows from how far a cleat was moved: %d mm', async (mm, steps) => {
    const { clientId } = await fitted(mm);
    expect(await told(clientId)).toEqual(steps);
    for (const { id, dueAt } of await list(clientId)) expect(await orders(id)).toEqual([dueAt]);
  });

  it('can be changed by hand, and another be followed besides', async () => {
    const { fitSessionId, clientId } = await fitted(24);
    const of = { params: { path: { fitSessionId } } };
    const choose = (planId: string, besides = false) =>
      dataOf(
        studio.owner.POST('/v1/fit-sessions/{fitSessionId}/follow-up-plan', {
          ...of,
          body: { planId, besides, because: 'The soles were drilled.' },
        }),
      );
    await choose('shoe-work', true);
    expect(await told(clientId)).toEqual([
      ...[
        'day-3 scheduled',
        'week-2 scheduled',
        'week-6 scheduled',
        'month-6 scheduled',
        'first-ride scheduled',
      ],
    ]);
    await choose('small-change');
    expect(await told(clientId)).toEqual([
      ...['day-3 skipped', 'week-2 scheduled', 'week-6 scheduled', 'month-6 skipped', 'first-ride skipped'],
    ]);
    // What a person chose is not chosen anew by an amendment.
    await dataOf(
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/amendments', {
        ...of,
        body: { text: 'Setback 58 mm.' },
      }),
    );
    expect(await told(clientId)).toEqual([
      ...['day-3 skipped', 'week-2 scheduled', 'week-6 scheduled', 'month-6 skipped', 'first-ride skipped'],
    ]);
    const [day3] = await list(clientId);
    const changes = await dataOf(
      studio.owner.GET('/v1/follow-ups/{followUpId}/changes', {
        params: { path: { followUpId: day3?.id ?? '' } },
      }),
    );
    expect(changes).toMatchObject([{ kind: 'plan', because: 'The soles were drilled.', state: 'skipped' }]);
  });

  it('is chosen anew when the record of the positions is amended', async () => {
    const { fitSessionId, clientId } = await fitted(24);
    // Amendments are words today; the record is changed beneath, as a later correction would see it.
    await admin.query('SET session_replication_role = replica');
    await admin.query(
      `UPDATE positions SET cleat_behind_mth1_left_mm = $2 WHERE fit_session_id = $1 AND stage = 'left'`,
      [fitSessionId, position.cleatBehindMth1LeftMm],
    );
    await admin.query('RESET session_replication_role');
    await dataOf(
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/amendments', {
        params: { path: { fitSessionId } },
        body: { text: 'The left cleat was not moved.' },
      }),
    );
    expect(await told(clientId)).toEqual([
      ...['day-3 skipped', 'week-2 scheduled', 'week-6 scheduled', 'month-6 skipped'],
    ]);
  });

  it('counts from a visit, and follows it when it is moved or called off', async () => {
    const { fitSessionId, clientId } = await fitted();
    const visitOn = (days: number): string => `${daysFromNow(days)}T10:00:00.000Z`;
    const visit = { clientId, serviceId: studio.serviceId, roomId: studio.roomId };
    const { id: appointmentId } = await dataOf(
      studio.desk.POST('/v1/appointments', {
        body: { ...visit, fitterId: studio.owner.signedIn.id, startsAt: visitOn(20) },
      }),
    );
    const choose = (fromAppointmentId: string) =>
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/follow-up-plan', {
        params: { path: { fitSessionId } },
        body: { planId: 'shoe-work', besides: true, fromAppointmentId, because: 'Collected at that visit.' },
      });
    const [, another] = await Promise.all([choose(appointmentId), fitted()]);
    const counted = async (): Promise<[string, string][]> =>
      (await list(clientId))
        .filter(({ planId }) => planId === 'shoe-work')
        .map(({ state, dueAt }) => [state, dueAt.slice(0, 10)]);
    const first = await counted();
    expect(first.length).toBeGreaterThan(0);
    const daysLater = first.map(([, due]) => Date.parse(due) - Date.parse(daysFromNow(20)));
    expect(daysLater.every((ms) => ms > 0)).toBe(true);

    const change = (version: number) => ({
      params: { path: { appointmentId }, header: { 'If-Match': `"${version}"` } },
    });
    await dataOf(
      studio.desk.PATCH('/v1/appointments/{appointmentId}', {
        ...change(1),
        body: { startsAt: visitOn(27) },
      }),
    );
    expect(await counted()).toEqual(
      daysLater.map((ms) => [
        'scheduled',
        new Date(Date.parse(daysFromNow(27)) + ms).toISOString().slice(0, 10),
      ]),
    );
    await dataOf(
      studio.desk.POST('/v1/appointments/{appointmentId}/cancellation', {
        ...change(2),
        body: { reason: 'Away.' },
      }),
    );
    expect((await counted()).map(([state]) => state)).toEqual(first.map(() => 'skipped'));

    const { error } = await studio.owner.POST('/v1/fit-sessions/{fitSessionId}/follow-up-plan', {
      params: { path: { fitSessionId: another.fitSessionId } },
      body: { planId: 'shoe-work', besides: true, fromAppointmentId: appointmentId, because: 'Not theirs.' },
    });
    expect(error).toMatchObject({ status: 422, errors: [{ field: 'fromAppointmentId' }] });
  });

  it('that nobody knows is refused', async () => {
    const { fitSessionId } = await fitted();
    const { error } = await studio.owner.POST('/v1/fit-sessions/{fitSessionId}/follow-up-plan', {
      params: { path: { fitSessionId } },
      body: { planId: 'none', because: 'No reason.' },
    });
    expect(error).toMatchObject({ status: 422, errors: [{ field: 'planId' }] });
  });
});

describe('a consent', () => {
  it.each(['contact', 'health_data'] as const)(
    'to %s cancels at once, and reschedules what is to come',
    async (kind) => {
      const { clientId } = await fitted(24);
      // Day 3 comes and goes while nobody may be asked.
      await withdraw(clientId, kind);
      expect(await told(clientId)).toEqual([
        ...['day-3 cancelled', 'week-2 cancelled', 'week-6 cancelled', 'month-6 cancelled'],
      ]);
      await admin.query(
        `UPDATE follow_ups SET due_at = now() - interval '1 hour' WHERE client_id = $1 AND step_id = 'day-3'`,
        [clientId],
      );
      await giveAgain(clientId, kind);
      const rows = await list(clientId);
      expect(rows.map(({ state }) => state)).toEqual(['cancelled', 'scheduled', 'scheduled', 'scheduled']);
      const [, week2] = rows as [FollowUp, FollowUp];
      expect(await orders(week2.id)).toEqual([week2.dueAt, week2.dueAt]);
    },
  );

  it('that is missing when the session is signed is waited for', async () => {
    const client = await takeOnClient(studio.owner);
    await screen(studio.desk, client.clientId);
    await withdraw(client.clientId, 'contact');
    await signedSession(studio.owner, client);
    expect(await told(client.clientId)).toEqual(['week-2 cancelled', 'week-6 cancelled']);
    await giveAgain(client.clientId, 'contact');
    expect(await told(client.clientId)).toEqual(['week-2 scheduled', 'week-6 scheduled']);
  });

  it('counts for nothing where the client wants no contact', async () => {
    const { clientId } = await fitted();
    const of = { path: { clientId } };
    const set = (doNotContact: boolean, version: number) =>
      dataOf(
        studio.desk.PATCH('/v1/clients/{clientId}', {
          params: { ...of, header: { 'If-Match': `"${version}"` } },
          body: { doNotContact },
        }),
      );
    await set(true, 1);
    expect(await told(clientId)).toEqual(['week-2 cancelled', 'week-6 cancelled']);
    await set(false, 2);
    expect(await told(clientId)).toEqual(['week-2 scheduled', 'week-6 scheduled']);
  });
});

describe('one follow-up', () => {
  const ifMatch = (followUpId: string, version: number) => ({
    params: { path: { followUpId }, header: { 'If-Match': `"${version}"` } },
  });

  it('can be moved, skipped and taken up again, each with its reason', async () => {
    const { clientId } = await fitted();
    const [{ id }] = (await list(clientId)) as [FollowUp];
    const dueOn = daysFromNow(30);
    const move = { body: { dueOn, because: 'Away until then.' } };
    const moved = await dataOf(
      studio.desk.POST('/v1/follow-ups/{followUpId}/move', { ...ifMatch(id, 1), ...move }),
    );
    expect(moved).toMatchObject({ state: 'scheduled', version: 2, daysAfter: 30 });
    expect(moved.dueAt.startsWith(dueOn)).toBe(true);
    expect((await orders(id)).at(-1)).toBe(moved.dueAt);

    const stale = await studio.desk.POST('/v1/follow-ups/{followUpId}/skip', {
      ...ifMatch(id, 1),
      body: { because: 'Told us.' },
    });
    expect(stale.response.status).toBe(412);
    const skip = (version: number) =>
      studio.desk.POST('/v1/follow-ups/{followUpId}/skip', {
        ...ifMatch(id, version),
        body: { because: 'Told us.' },
      });
    expect((await skip(2)).data).toMatchObject({ state: 'skipped', stateReason: 'skipped_by_studio' });
    expect((await skip(3)).error).toMatchObject({ status: 409, code: 'follow-ups.state', state: 'skipped' });
    const again = await dataOf(
      studio.desk.POST('/v1/follow-ups/{followUpId}/move', { ...ifMatch(id, 3), ...move }),
    );
    expect(again).toMatchObject({ state: 'scheduled', stateReason: null });
    const changes = await dataOf(
      studio.desk.GET('/v1/follow-ups/{followUpId}/changes', { params: { path: { followUpId: id } } }),
    );
    expect(changes.map(({ kind, because }) => [kind, because])).toEqual([
      ['move', 'Away until then.'],
      ['skip', 'Told us.'],
      ['move', 'Away until then.'],
    ]);
  });

  it('is not moved to a day that is over', async () => {
    const { clientId } = await fitted();
    const [{ id }] = (await list(clientId)) as [FollowUp];
    const { error } = await studio.desk.POST('/v1/follow-ups/{followUpId}/move', {
      ...ifMatch(id, 1),
      body: { dueOn: daysFromNow(-2), because: 'Too late.' },
    });
    expect(error).toMatchObject({ status: 422, errors: [{ field: 'dueOn' }] });
  });

  it('can be added, once a day', async () => {
    const { clientId, fitSessionId } = await fitted();
    const add = () =>
      studio.owner.POST('/v1/clients/{clientId}/follow-ups', {
        params: { path: { clientId } },
        body: { fitSessionId, dueOn: daysFromNow(60), because: 'Before the first race.' },
      });
    expect((await add()).data).toMatchObject({ planId: null, daysAfter: 60, state: 'scheduled' });
    expect((await add()).error).toMatchObject({ status: 409, code: 'follow-ups.already-promised' });
    expect(await told(clientId)).toHaveLength(3);
  });
});

describe('a studio’s own plan', () => {
  const step = {
    id: 'month-1',
    after: { count: 1, unit: 'months' as const },
    window: { from: '10:00', until: '12:00' },
    channel: 'mail' as const,
    questionSet: { id: 'since-the-fit', version: '2' },
    unanswered: [{ afterDays: 10, action: 'close' as const }],
    tell: 'owner' as const,
    countsAsOutcome: true,
  };

  it('is kept in versions, and followed in its newest', async () => {
    const created = await studio.owner.POST('/v1/follow-up-plans', {
      body: { id: 'crank-change', name: 'Crank change', steps: [step] },
    });
    expect(created.response.status).toBe(201);
    const change = (version: number) =>
      studio.owner.PUT('/v1/follow-up-plans/{followUpPlanId}', {
        params: { path: { followUpPlanId: 'crank-change' }, header: { 'If-Match': `"${version}"` } },
        body: {
          name: 'Crank change',
          steps: [step, { ...step, id: 'month-3', after: { count: 3, unit: 'months' } }],
        },
      });
    expect((await change(1)).data).toMatchObject({ version: 2, builtIn: false });
    expect((await change(1)).response.status).toBe(412);
    const plans = await dataOf(studio.desk.GET('/v1/follow-up-plans'));
    expect(plans.map(({ id, version }) => `${id} ${version}`)).toEqual([
      ...['small-change 1', 'large-cleat-change 1', 'shoe-work 1', 'crank-change 2'],
    ]);
    const { fitSessionId } = await fitted();
    const rows = await dataOf(
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/follow-up-plan', {
        params: { path: { fitSessionId } },
        body: { planId: 'crank-change', because: 'Shorter cranks.' },
      }),
    );
    expect(rows.map(({ step: { id }, state }) => `${id} ${state}`)).toEqual([
      ...['week-2 skipped', 'week-6 skipped', 'month-1 scheduled', 'month-3 scheduled'],
    ]);
  });

  it.each([
    ['a name that is built in', { id: 'small-change' }, 409],
    ['no end', { steps: [{ ...step, unanswered: [{ afterDays: 4, action: 'remind' as const }] }] }, 422],
    ['questions there are none of', { steps: [{ ...step, questionSet: { id: 'none', version: '1' } }] }, 422],
    ['a time that is none', { steps: [{ ...step, window: { from: '25:00', until: '26:00' } }] }, 400],
  ])('is refused with %s', async (_, part, status) => {
    const { response } = await studio.owner.POST('/v1/follow-up-plans', {
      body: { id: 'other', name: 'Other', steps: [step], ...part },
    });
    expect(response.status).toBe(status);
  });
});
