import { beforeAll, expect, it } from '@jest/globals';
import { entityMetadatas, lastOfPerson, personTables } from '@studio/database';

/** Tables of a studio that hold nothing of a client, each with why. A new table is here or among the person's tables. */
const noClient: ReadonlyMap<string, string> = new Map([
  ...['users', 'refresh_tokens', 'second_factors', 'recovery_codes', 'api_keys', 'password_links'].map(
    (table) => [table, 'of staff'] as const,
  ),
  ['clinician_marks', 'of staff'],
  ['sign_in_attempts', 'of staff'],
  ...['services', 'rooms', 'sites', 'benches', 'weekly_hours', 'hours_exceptions', 'tax_rates', 'parts'].map(
    (table) => [table, 'of the studio'] as const,
  ),
  ...['account_settings', 'number_series', 'message_texts', 'message_settings', 'waiting_list_settings'].map(
    (table) => [table, 'of the studio'] as const,
  ),
  ...['calendar_feeds', 'follow_up_plans', 'saddle_offsets', 'rule_set_sign_offs', 'retention_choices'].map(
    (table) => [table, 'of the studio'] as const,
  ),
  ...['studio_keys', 'schedule_turns', 'webhook_endpoints', 'client_imports'].map(
    (table) => [table, 'of the studio'] as const,
  ),
  ['studio_handles', 'of the studio'],
  ...['outbox', 'webhook_events', 'webhook_deliveries'].map((table) => [table, 'ids only'] as const),
  ['deposit_uses', 'amounts and ids only'],
  ['idempotency_keys', 'answers of a day; forgotten with every erasure'],
  ['audit_entries', 'ids and names of fields; kept to tell who did what'],
  ['audit_seals', 'hashes of the audit log'],
  ['record_signatures', 'what was signed is erased by its own function, and the chain says so'],
]);

/** Columns of rows that stay, which say nothing of a person. */
const saysNothing = new Set([
  'account_documents.kind',
  'account_documents.state',
  'account_documents.currency',
  'account_documents.series',
  'account_documents.seller',
  'account_lines.tax_class',
  'payments.kind',
  'payments.method',
  'payments.currency',
  'appointments.state',
  'appointments.cancelled_by',
  'appointment_changes.action',
  'appointment_changes.state',
  'outcome_summaries.answer_state',
  // One of a few words each.
  'outcome_summaries.sprint_feel',
  'outcome_summaries.standing_feel',
  'outcome_summaries.leg_length_option',
  'erasures.category',
  'erasures.kept_by_law',
  'rights_requests.kind',
  'rights_requests.state',
]);

let metadatas: Awaited<ReturnType<typeof entityMetadatas>>;
beforeAll(async () => {
  metadatas = await entityMetadatas();
});

const all = [...personTables, ...lastOfPerson];

it('every table of a studio is erased with a person, or says why not', () => {
  const known = new Set([...all.map(({ table }) => table), ...noClient.keys()]);
  const tables = metadatas
    .filter(({ columns }) => columns.some(({ databaseName }) => databaseName === 'studio_id'))
    .map(({ tableName }) => tableName);
  expect(tables.length).toBeGreaterThan(70);
  expect(tables.filter((table) => !known.has(table))).toEqual([]);
});

it('of rows that stay, every text is taken out, or says nothing of a person', () => {
  const deleted = new Set(all.filter(({ erase }) => erase === 'delete').map(({ table }) => table));
  const kept = [...new Set(all.map(({ table }) => table))].filter((table) => !deleted.has(table));
  expect(kept.length).toBeGreaterThan(5);
  const left = kept.flatMap((table) => {
    const set = new Set(
      all.flatMap(({ table: one, erase }) =>
        one === table && erase !== 'delete' ? Object.keys(erase.set) : [],
      ),
    );
    const texts = metadatas
      .find(({ tableName }) => tableName === table)
      ?.columns.filter(({ type }) => type === 'text' || type === 'jsonb');
    return (texts ?? [])
      .filter(({ databaseName }) => !set.has(databaseName))
      .map(({ databaseName }) => `${table}.${databaseName}`);
  });
  expect(left.filter((column) => !saysNothing.has(column))).toEqual([]);
});
