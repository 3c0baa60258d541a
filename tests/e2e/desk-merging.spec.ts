import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import fc from 'fast-check';
import pg from 'pg';
import { nothingWrong, screen, signedSession, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

type Schemas = components['schemas'];

let api: TestApi;
let studio: TestStudio;
let database: pg.Client;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  database = new pg.Client({ connectionString: api.database.adminUrl });
  await database.connect();
});
afterAll(async () => {
  await database.end();
  await api.close();
});

const of = (clientId: string) => ({ params: { path: { clientId } } });
const mergeCall = (clientId: string, mergedClientId: string) =>
  studio.desk.POST('/v1/clients/{clientId}/merges', { ...of(clientId), body: { mergedClientId } });
const merge = (clientId: string, mergedClientId: string) => dataOf(mergeCall(clientId, mergedClientId));
const undoCall = (clientMergeId: string) =>
  studio.desk.POST('/v1/client-merges/{clientMergeId}/undo', { params: { path: { clientMergeId } } });
const undo = (clientMergeId: string) => dataOf(undoCall(clientMergeId));
const get = (clientId: string) => dataOf(studio.desk.GET('/v1/clients/{clientId}', of(clientId)));
const patch = ({ id, version }: Schemas['ClientResponse'], body: Schemas['UpdateClientRequest']) =>
  studio.desk.PATCH('/v1/clients/{clientId}', {
    params: { path: { clientId: id }, header: { 'If-Match': `"${version}"` } },
    body,
  });
const create = (body: Partial<Schemas['CreateClientRequest']> = {}) =>
  dataOf(studio.desk.POST('/v1/clients', { body: { givenName: 'Robin', familyName: 'Rider', ...body } }));
const consent = (clientId: string, kind: Schemas['GiveConsentRequest']['kind']) =>
  dataOf(
    studio.desk.POST('/v1/clients/{clientId}/consents', {
      ...of(clientId),
      body: { kind, textVersion: '1' },
    }),
  );
const withdraw = (clientId: string, kind: Schemas['GiveConsentRequest']['kind']) =>
  dataOf(
    studio.desk.POST('/v1/clients/{clientId}/consents/{kind}/withdrawal', {
      params: { path: { clientId, kind } },
    }),
  );
const note = (clientId: string, text: string) =>
  dataOf(studio.desk.POST('/v1/clients/{clientId}/notes', { ...of(clientId), body: { text } }));
const notesOf = async (clientId: string) =>
  (await dataOf(studio.desk.GET('/v1/clients/{clientId}/notes', of(clientId)))).items;
const noticeOf = async (clientId: string) =>
  (await dataOf(studio.desk.GET('/v1/clients/{clientId}/desk-notice', of(clientId)))).notice;
const booking = (clientId: string, hour = 9): Schemas['CreateAppointmentRequest'] => ({
  ...{ clientId, serviceId: studio.serviceId, roomId: studio.roomId, fitterId: studio.owner.signedIn.id },
  startsAt: `2090-03-02T${String(hour).padStart(2, '0')}:00:00Z`,
});

describe('two records of one person, merged', () => {
  it('are read as one: sessions, screenings, appointments, referrals, consents, links, equipment, notes', async () => {
    const one = await takeOnClient(studio.owner);
    const other = await takeOnClient(studio.owner);
    await screen(studio.desk, one.clientId);
    await screen(studio.desk, other.clientId);
    const sessions = [await signedSession(studio.owner, one), await signedSession(studio.owner, other)];
    await screen(studio.desk, other.clientId, { ...nothingWrong, bone_pain_on_loading: 'yes' });
    const written = [await note(one.clientId, 'One.'), await note(other.clientId, 'Other.')];
    for (const { clientId } of [one, other]) {
      await dataOf(
        studio.desk.POST('/v1/clients/{clientId}/intake-links', {
          ...of(clientId),
          body: { delivery: 'hand_over' },
        }),
      );
    }
    await merge(one.clientId, other.clientId);

    for (const clientId of [one.clientId, other.clientId]) {
      const query = { clientId };
      const { items } = await dataOf(studio.owner.GET('/v1/fit-sessions', { params: { query } }));
      expect(items.map(({ id }) => id)).toEqual(sessions.map(({ fitSessionId }) => fitSessionId));
      expect((await notesOf(clientId)).map(({ id }) => id)).toEqual(written.map(({ id }) => id).reverse());
      const { GET } = studio.owner;
      expect(await dataOf(GET('/v1/clients/{clientId}/screenings', of(clientId)))).toHaveLength(3);
      expect(await dataOf(GET('/v1/clients/{clientId}/referrals', of(clientId)))).toHaveLength(1);
      expect(await dataOf(GET('/v1/clients/{clientId}/consents', of(clientId)))).toHaveLength(6);
      expect(await dataOf(GET('/v1/clients/{clientId}/intake-links', of(clientId)))).toHaveLength(2);
      expect(await dataOf(GET('/v1/clients/{clientId}/bikes', of(clientId)))).toHaveLength(2);
      expect(await dataOf(GET('/v1/clients/{clientId}/shoes', of(clientId)))).toHaveLength(2);
    }
  });

  it('have the stricter permission, until what bars it is cleared', async () => {
    const one = await takeOnClient(studio.owner);
    const other = await takeOnClient(studio.owner);
    await screen(studio.desk, other.clientId, { ...nothingWrong, bone_pain_on_loading: 'yes' });
    await screen(studio.desk, one.clientId);
    expect(await noticeOf(one.clientId)).toBe('may_be_booked');
    const { id: mergeId } = await merge(one.clientId, other.clientId);
    expect(await noticeOf(one.clientId)).toBe('not_before_clearance');
    expect((await studio.desk.POST('/v1/appointments', { body: booking(one.clientId) })).error).toMatchObject(
      { status: 409, code: 'screenings.not-permitted' },
    );
    await undo(mergeId);
    expect(await noticeOf(one.clientId)).toBe('may_be_booked');
    expect(await noticeOf(other.clientId)).toBe('not_before_clearance');
    await merge(one.clientId, other.clientId);
    const [referral] = await dataOf(studio.owner.GET('/v1/clients/{clientId}/referrals', of(one.clientId)));
    await dataOf(
      studio.owner.POST('/v1/referrals/{referralId}/clearance', {
        params: { path: { referralId: referral?.id ?? '' } },
        body: { reason: 'Examined; may ride.', clearedByClinician: 'Dr A. Holm' },
      }),
    );
    expect(await noticeOf(one.clientId)).toBe('may_be_booked');
  });

  it('keep open what either left open, until the person is screened again', async () => {
    const one = await takeOnClient(studio.owner);
    const other = await takeOnClient(studio.owner);
    await screen(studio.desk, other.clientId, {});
    const open = await noticeOf(other.clientId);
    expect(open).not.toBe('may_be_booked');
    await screen(studio.desk, one.clientId);
    await merge(one.clientId, other.clientId);
    expect(await noticeOf(one.clientId)).toBe(open);
    await screen(studio.desk, one.clientId);
    expect(await noticeOf(one.clientId)).toBe('may_be_booked');
  });

  it('may not be written to when either says so, and consent to what neither withdrew', async () => {
    const one = await takeOnClient(studio.owner);
    const other = await takeOnClient(studio.owner);
    await withdraw(other.clientId, 'health_data');
    await merge(one.clientId, other.clientId);
    const body = { questionSetId: 'rider-intake', questionSetVersion: '2', answers: nothingWrong };
    const screening = () =>
      studio.desk.POST('/v1/clients/{clientId}/screenings', { ...of(one.clientId), body });
    expect((await screening()).error).toMatchObject({ code: 'clients.consent-missing' });
    await consent(one.clientId, 'health_data');
    expect((await screening()).response.status).toBe(201);
    await withdraw(one.clientId, 'health_data');
    expect((await screening()).error).toMatchObject({ code: 'clients.consent-missing' });
    const standing = (
      await dataOf(studio.desk.GET('/v1/clients/{clientId}/consents', of(one.clientId)))
    ).filter(({ kind, withdrawnAt }) => kind === 'health_data' && withdrawnAt === null);
    expect(standing).toEqual([]);

    const quiet = await create({ doNotContact: true });
    const loud = await create();
    const { id } = await merge(loud.id, quiet.id);
    expect((await get(loud.id)).doNotContact).toBe(true);
    await undo(id);
    expect((await get(loud.id)).doNotContact).toBe(false);
  });

  it('complete each other, and find each other by either name', async () => {
    const one = await create({ familyName: 'Okonjo', tags: ['a'], note: 'Rings.', bornOn: '1990-01-02' });
    const other = await create({
      ...{ familyName: 'Okonyo', email: 'o@riders.example', phone: '+45 20 12 34 56' },
      ...{ tags: ['a', 'b'], note: 'Mails.', bornOn: '1990-02-01' },
    });
    const merged = await merge(one.id, other.id);
    expect(merged.completed.sort()).toEqual(['email', 'note', 'phone', 'phoneE164', 'tags']);
    expect(merged.merged).toMatchObject({ familyName: 'Okonyo', bornOn: '1990-02-01' });
    expect(await get(one.id)).toMatchObject({
      ...{ familyName: 'Okonjo', email: 'o@riders.example', phone: '+45 20 12 34 56' },
      ...{ tags: ['a', 'b'], note: 'Rings.\nMails.', bornOn: '1990-01-02', mergedInto: null },
    });
    const query = { name: 'okonyo' };
    const found = await dataOf(studio.desk.GET('/v1/clients', { params: { query } }));
    expect(found.items.map(({ id }) => id)).toEqual([one.id]);
    expect((await get(other.id)).mergedInto).toBe(one.id);
  });

  it('are a minor while either birth date says so', async () => {
    const one = await create({ bornOn: '1990-01-02' });
    const other = await create({ bornOn: '2020-01-02' });
    await merge(one.id, other.id);
    const body = { kind: 'data' as const, textVersion: '1' };
    expect(
      (await studio.desk.POST('/v1/clients/{clientId}/consents', { ...of(one.id), body })).error,
    ).toMatchObject({ code: 'clients.guardian-missing' });
  });
});

describe('the record that was merged', () => {
  it('takes nothing new, and names the one that does', async () => {
    const one = await takeOnClient(studio.owner);
    const other = await takeOnClient(studio.owner);
    await merge(one.clientId, other.clientId);
    const { clientId } = other;
    const body = { text: 'Late.' };
    const refused = [
      studio.desk.POST('/v1/appointments', { body: booking(clientId) }),
      studio.desk.POST('/v1/clients/{clientId}/notes', { ...of(clientId), body }),
      studio.owner.POST('/v1/fit-sessions', { body: other }),
      patch(await get(clientId), { note: 'Late.' }),
      mergeCall(clientId, one.clientId),
      mergeCall(one.clientId, clientId),
    ];
    for (const { error } of await Promise.all(refused)) {
      expect(error).toMatchObject({
        status: 409,
        code: 'clients.merged',
        survivingClientId: one.clientId,
      });
    }
  });

  it('keeps its visits, and the surviving one rides its bike', async () => {
    const one = await takeOnClient(studio.owner);
    const other = await takeOnClient(studio.owner);
    await screen(studio.desk, one.clientId);
    const visit = await dataOf(studio.desk.POST('/v1/appointments', { body: booking(other.clientId, 15) }));
    await merge(one.clientId, other.clientId);
    const query = { from: '2090-03-02T00:00:00Z', to: '2090-03-03T00:00:00Z', clientId: one.clientId };
    const { items } = await dataOf(studio.desk.GET('/v1/appointments', { params: { query } }));
    expect(items.map(({ id }) => id)).toEqual([visit.id]);
    const session = { clientId: one.clientId, bikeId: other.bikeId, shoeId: other.shoeId };
    expect((await studio.owner.POST('/v1/fit-sessions', { body: session })).response.status).toBe(201);
  });
});

describe('undoing', () => {
  it('leaves what was changed since, and takes back only what the merge brought', async () => {
    const one = await create({ tags: ['a'] });
    const other = await create({ tags: ['b', 'c'], email: 'x@riders.example', phone: '+45 20 12 34 56' });
    const { id } = await merge(one.id, other.id);
    await dataOf(patch(await get(one.id), { tags: ['a', 'c', 'd'], email: 'y@riders.example' }));
    await undo(id);
    expect(await get(one.id)).toMatchObject({ tags: ['a', 'd'], email: 'y@riders.example', phone: null });
    expect(await get(other.id)).toMatchObject({
      tags: ['b', 'c'],
      email: 'x@riders.example',
      mergedInto: null,
    });
    expect((await undoCall(id)).error).toMatchObject({ status: 409, code: 'clients.merge-undone' });
  });

  it('goes back in order', async () => {
    const [a, b, c] = [await create(), await create(), await create()];
    const first = await merge(b.id, a.id);
    const second = await merge(c.id, b.id);
    expect((await get(a.id)).mergedInto).toBe(c.id);
    expect((await undoCall(first.id)).error).toMatchObject({
      code: 'clients.later-merge-first',
      mergeId: second.id,
    });
    await undo(second.id);
    expect((await get(a.id)).mergedInto).toBe(b.id);
    await undo(first.id);
    const merges = await dataOf(studio.desk.GET('/v1/clients/{clientId}/merges', of(b.id)));
    expect(merges.map(({ id, undoneAt }) => [id, undoneAt !== null])).toEqual([
      [second.id, true],
      [first.id, true],
    ]);
  });

  it('leaves everything as it was, whatever was merged and undone in whatever order', async () => {
    const people = await Promise.all(
      [0, 1, 2, 3, 4].map(async (at) => {
        const client = await create({
          ...(at % 2 === 0 && { email: `p${at}@riders.example`, doNotContact: at === 2 }),
          ...(at > 2 && { phone: `+45 20 12 34 5${at}`, note: `Note ${at}.` }),
          tags: at === 4 ? [] : ['all', `tag_${at}`],
        });
        await consent(client.id, 'contact');
        if (at === 1) await withdraw(client.id, 'contact');
        return { id: client.id, note: (await note(client.id, `Of ${at}.`)).id };
      }),
    );
    const ids = people.map(({ id }) => id);
    const everything = async () => ({
      // Sealed anew when it is written back.
      notes: await Promise.all(ids.map(async (id) => (await get(id)).note)),
      rows: (
        await database.query<{ row: object }>(
          `SELECT to_jsonb(c) - '{version,note}'::text[] AS row FROM clients c WHERE id = ANY ($1)
           UNION ALL SELECT to_jsonb(k) FROM client_consents k WHERE client_id = ANY ($1)
           UNION ALL SELECT to_jsonb(n) FROM client_notes n WHERE client_id = ANY ($1) ORDER BY 1`,
          [ids],
        )
      ).rows,
    });
    const before = await everything();
    const who = fc.nat(people.length - 1);
    const step = fc.oneof(
      fc.record({ merge: fc.constant(true), one: who, other: who }),
      fc.record({ merge: fc.constant(false), one: fc.nat(3), other: who }),
    );

    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 3, maxLength: 9 }), async (steps) => {
        /** Who is which person now, by the plain way of telling: each merge joins two, each undo parts them. */
        const standing: { id: string; surviving: string; merged: string }[] = [];
        const survivorOf = (id: string): string => {
          const away = standing.find(({ merged }) => merged === id);
          return away ? survivorOf(away.surviving) : id;
        };
        for (const { merge: isMerge, one, other } of steps) {
          const [surviving, merged] = [ids[one] as string, ids[other] as string];
          if (isMerge) {
            const { data, error } = await mergeCall(surviving, merged);
            const possible =
              one !== other && survivorOf(surviving) === surviving && survivorOf(merged) === merged;
            expect([possible, error?.code]).toEqual([data !== undefined, error?.code]);
            if (data) standing.push({ id: data.id, surviving, merged });
          } else {
            const at = standing.length - 1 - one;
            const undone = standing[at];
            if (!undone) continue;
            const later = standing
              .slice(at + 1)
              .some((item) => [item.surviving, item.merged].includes(undone.surviving));
            expect((await undoCall(undone.id)).response.status).toBe(later ? 409 : 200);
            if (!later) standing.splice(at, 1);
          }
          const asked = ids[other] as string;
          const same = people.filter(({ id }) => survivorOf(id) === survivorOf(asked));
          expect((await notesOf(asked)).map(({ id }) => id).sort()).toEqual(same.map((p) => p.note).sort());
          expect((await get(survivorOf(asked))).doNotContact).toBe(same.some(({ id }) => id === ids[2]));
        }
        for (const { id } of standing.toReversed()) await undo(id);
        expect(await everything()).toEqual(before);
      }),
      { numRuns: 15 },
    );
  });
});

describe('notes', () => {
  it('are kept with who and when; a correction stands beside', async () => {
    const { id: clientId } = await create();
    const written = await note(clientId, 'Prefers mornings.');
    const call = (clientNoteId: string) =>
      studio.owner.POST('/v1/client-notes/{clientNoteId}/corrections', {
        params: { path: { clientNoteId } },
        body: { text: 'Evenings.' },
      });
    const corrected = await dataOf(call(written.id));
    expect(corrected).toMatchObject({
      ...written,
      corrections: [{ text: 'Evenings.', writtenBy: studio.owner.signedIn.id }],
    });
    expect((await call(corrected.corrections[0]?.id ?? '')).response.status).toBe(404);
    await note(clientId, 'Second.');
    const page = (after?: string) =>
      dataOf(
        studio.desk.GET('/v1/clients/{clientId}/notes', {
          params: { path: { clientId }, query: { limit: 1, ...(after && { after }) } },
        }),
      );
    const first = await page();
    expect(first.items.map(({ text }) => text)).toEqual(['Second.']);
    expect(await page(first.next ?? '')).toMatchObject({
      items: [{ text: 'Prefers mornings.' }],
      next: null,
    });
  });
});

describe('family and team', () => {
  const link = (clientId: string, otherClientId: string, kind: Schemas['LinkClientRequest']['kind']) =>
    studio.desk.POST('/v1/clients/{clientId}/links', { ...of(clientId), body: { otherClientId, kind } });
  const linksOf = async (clientId: string) =>
    (await dataOf(studio.desk.GET('/v1/clients/{clientId}/links', of(clientId)))).map(
      ({ kind, otherClientId }) => ({ kind, otherClientId }),
    );

  it('are told from both sides, once, and can be taken back', async () => {
    const [parent, child] = [await create(), await create()];
    const [made] = await dataOf(link(child.id, parent.id, 'parent'));
    expect(await linksOf(child.id)).toEqual([{ kind: 'parent', otherClientId: parent.id }]);
    expect(await linksOf(parent.id)).toEqual([{ kind: 'child', otherClientId: child.id }]);
    expect((await link(parent.id, child.id, 'child')).error).toMatchObject({
      status: 409,
      code: 'clients.linked-already',
    });
    expect((await link(child.id, child.id, 'sibling')).error).toMatchObject({
      status: 422,
      code: 'clients.linked-to-itself',
    });
    await dataOf(
      studio.desk.DELETE('/v1/client-links/{clientLinkId}', {
        params: { path: { clientLinkId: made?.id ?? '' } },
      }),
    );
    expect(await linksOf(parent.id)).toEqual([]);
  });

  it('lead to the surviving record', async () => {
    const [rider, coach, twice] = [await create(), await create(), await create()];
    await dataOf(link(rider.id, twice.id, 'coach'));
    await merge(coach.id, twice.id);
    expect(await linksOf(rider.id)).toEqual([{ kind: 'coach', otherClientId: coach.id }]);
    expect(await linksOf(coach.id)).toEqual([{ kind: 'coached_rider', otherClientId: rider.id }]);
  });
});
