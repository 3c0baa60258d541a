import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, openClient } from '@studio/api-client';
import { call, operations, type Operation } from '../helpers/openapi.js';
import { makeEveryRecord } from '../helpers/every-record.js';
import { giveMark, signInAs, tokenOf } from '../helpers/staff.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

type Role = 'owner' | 'fitter' | 'front_desk';

/** Somebody who asks, and what the table may say of them. */
interface Asker {
  readonly name: string;
  readonly role: Role;
  readonly clinician?: boolean;
  readonly key?: 'reads' | 'writes';
}

const askers: readonly Asker[] = [
  { name: 'an owner', role: 'owner' },
  { name: 'a fitter', role: 'fitter' },
  { name: 'a clinician', role: 'fitter', clinician: true },
  { name: 'the front desk', role: 'front_desk' },
  { name: 'a key of an owner', role: 'owner', key: 'writes' },
  { name: 'a reading key of a fitter', role: 'fitter', key: 'reads' },
  { name: 'a key of the front desk', role: 'front_desk', key: 'writes' },
];

let api: TestApi;
let here: TestStudio;
let elsewhere: TestStudio;
let ids: Record<string, string>;
let tokens: ReadonlyMap<Asker, string>;
/** What the rules found in the records here, in their own words. */
let found: string[];

beforeAll(async () => {
  api = await startTestApi();
  [here, elsewhere] = await Promise.all([openTestStudio(api), openTestStudio(api)]);
  ids = await makeEveryRecord(here);
  const byName: [Asker, string][] = [];
  for (const asker of askers) byName.push([asker, await tokenFor(asker)]);
  tokens = new Map(byName);
  const of = { params: { path: { clientId: ids['clientId'] ?? '' } } };
  const screenings = await dataOf(here.owner.GET('/v1/clients/{clientId}/screenings', of));
  found = screenings
    .flatMap(({ findings }) => findings.filter(({ result }) => result === 'raised'))
    .flatMap(({ ruleId, messageForStaff }) => [ruleId, messageForStaff]);
});
afterAll(() => api.close());

/** Somebody with this role alone, or a key with it. */
async function tokenFor({ name, role, clinician = false, key }: Asker): Promise<string> {
  if (key) {
    const expiresAt = new Date(Date.now() + 86_400_000).toISOString();
    const body = { name, roles: [role], readOnly: key === 'reads', expiresAt };
    const owner = role === 'front_desk' ? here.desk : here.owner;
    return (await dataOf(owner.POST('/v1/api-keys', { body }))).key;
  }
  const email = `${name.replaceAll(' ', '-')}@${here.studio.handle}.example`;
  const { id, token } = await signInAs(here, { email, roles: [role] });
  if (!clinician) return token;
  await giveMark(here, id);
  return tokenOf(here, email);
}

const secured = operations.filter(({ permission }) => permission.who !== 'anyone');
const names = (operation: Operation): boolean => operation.pathParameters.some((name) => name.endsWith('Id'));
const reads = (operation: Operation): boolean => operation.method === 'GET';

/** The refusal that the table asks for; null where the asker is let through. */
function refusalOf(
  { permission, method }: Operation,
  { role, clinician = false, key }: Asker,
): string | null {
  const { who, inPerson } = permission;
  const granted = who === 'anyone' || who.includes(role) || (clinician && who.includes('clinician'));
  if (!granted) return 'access.not-allowed';
  if (key && inPerson) return 'access.in-person-only';
  return key === 'reads' && method !== 'GET' ? 'access.not-allowed' : null;
}

/** Reads of what the worker makes, which other tests see to. */
const madeByWorker = [
  'getOutcome',
  'getClientSummary',
  'drawClientSummary',
  'getSlotOffer',
  'drawModelCheck',
];
/** An inbox shows the tasks of its own role. */
const ofAnInbox = ['getTask', 'getTaskHistory'];
const nowhere = '0199d000-0000-7000-8000-00000000ffff';
const noRecord = Object.fromEntries(
  operations.flatMap(({ pathParameters }) => pathParameters.map((name) => [name, nowhere])),
);

let answers = 0;
const ask = (operation: Operation, options: Parameters<typeof call>[2]) => {
  answers += 1;
  return call(api.url, operation, options);
};

/** Eight at a time: what differs from the expected, by operation. */
async function differing<Item>(
  items: readonly Item[],
  check: (item: Item) => Promise<string | null>,
): Promise<string[]> {
  const differences: string[] = [];
  const rest = [...items];
  const worker = async () => {
    for (let item = rest.shift(); item !== undefined; item = rest.shift()) {
      const difference = await check(item);
      if (difference !== null) differences.push(difference);
    }
  };
  await Promise.all(Array.from({ length: 8 }, worker));
  return differences.sort();
}

describe('the table of permissions', () => {
  it('speaks of every operation, and every kind of id is known', () => {
    expect(operations.filter(({ permission }) => (permission as object | undefined) === undefined)).toEqual(
      [],
    );
    expect(operations.filter(({ permission, secured }) => secured === (permission.who === 'anyone'))).toEqual(
      [],
    );
    // A new kind of id must be added to every-record, or its routes would pass unchecked.
    const named = operations.filter(names).flatMap(({ pathParameters }) => pathParameters);
    expect(named.filter((name) => !(name in ids))).toEqual([]);
  });

  it('opens these to everybody, and no others', () => {
    const open = operations.filter(({ permission }) => permission.who === 'anyone');
    expect(open.map(({ id }) => id).sort()).toEqual([
      'answerFollowUp',
      'beginFirstSecondFactor',
      'choosePassword',
      'confirmFirstSecondFactor',
      'endSignIn',
      'live',
      'openFollowUpLink',
      'readStoredObject',
      'ready',
      'refreshSignIn',
      'requestPasswordReset',
      'signIn',
      'takeMailReport',
    ]);
  });

  it.each(askers.map((asker) => [asker.name, asker] as const))(
    'is what happens in the own studio when %s asks for every operation',
    async (_, asker) => {
      const token = tokens.get(asker) as string;
      const atDesk = asker.role === 'front_desk';
      const absent = [...madeByWorker, ...(atDesk ? ofAnInbox : [])];
      const differences = await differing(secured, async (operation) => {
        const expected = refusalOf(operation, asker);
        // A key and a clinician go the way of the role they have; where it gets to, the role got before.
        const real = reads(operation) && expected === null && !asker.key && !asker.clinician;
        const { status, problem, text } = await ask(operation, {
          ids: real ? { ...ids, template: 'notice' } : noRecord,
          token,
          // What is let through is refused for this, and changes nothing.
          ...(operation.body && { body: { notAField: true } }),
        });
        const code = problem.code?.startsWith('access.') === true ? problem.code : null;
        const said = `${operation.id}: ${String(status)} ${problem.code ?? ''}`;
        if (code !== expected || (expected !== null && status !== 403) || status >= 500) return said;
        if (real && status !== (absent.includes(operation.id) ? 404 : 200)) return said;
        return atDesk && found.some((words) => text.includes(words)) ? `${said}: medical text` : null;
      });
      expect(differences).toEqual([]);
      expect(found.length).toBeGreaterThan(0);
    },
  );

  it('another studio’s record is not there, whoever asks', async () => {
    const token = await tokenOf(elsewhere, elsewhere.studio.owner.email);
    const mayAsk = (who: readonly string[] | 'anyone') =>
      who !== 'anyone' && (who.includes('owner') || who.includes('fitter'));
    const asked = secured.filter((operation) => names(operation) && mayAsk(operation.permission.who));
    expect(asked.length).toBeGreaterThanOrEqual(150);
    const differences = await differing(asked, async (operation) => {
      const { status, problem } = await ask(operation, { ids, token });
      return status === 404 && problem.code === 'not-found' ? null : `${operation.id}: ${String(status)}`;
    });
    expect(differences).toEqual([]);
  });

  it('without a sign-in, or with a token that is none, nobody is anybody', async () => {
    const differences = await differing(secured, async (operation) => {
      const tries = [
        await ask(operation, { ids: noRecord }),
        await ask(operation, { ids: noRecord, token: 'a.b.c' }),
      ];
      return tries.every(({ status, problem }) => status === 401 && problem.code === 'access.not-signed-in')
        ? null
        : operation.id;
    });
    expect(differences).toEqual([]);
  });

  afterAll(() => {
    process.stdout.write(
      `permissions: ${String(operations.length)} operations, ${String(askers.length)} askers of the studio, one of another, ` +
        `none, a bad token: ${String(answers)} answers checked\n`,
    );
  });
});

it('a body cannot name another studio’s record', async () => {
  const token = await tokenOf(elsewhere, elsewhere.studio.owner.email);
  for (const id of ['createAppointment', 'openFitSession']) {
    const operation = operations.find((item) => item.id === id) as Operation;
    expect([404, 422]).toContain((await call(api.url, operation, { ids, token })).status);
  }
});

it('a list holds nothing of another studio', async () => {
  const { items } = await dataOf(elsewhere.owner.GET('/v1/clients'));
  expect(items).toEqual([]);
  const range = { from: '2090-01-01T00:00:00Z', to: '2091-01-01T00:00:00Z' };
  const appointments = await dataOf(elsewhere.owner.GET('/v1/appointments', { params: { query: range } }));
  expect(appointments.items).toEqual([]);
});

it('an open route asks nobody who they are', async () => {
  for (const id of ['live', 'ready']) {
    const operation = operations.find((item) => item.id === id) as Operation;
    expect((await call(api.url, operation, { ids: {} })).status).toBe(200);
  }
  expect((await openClient(api.url).GET('/v1/studio')).response.status).toBe(401);
});
