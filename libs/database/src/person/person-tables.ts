import type { PersonCategory } from '../entities/right.js';

/** A table that holds something of a client. */
export interface PersonTable {
  readonly table: string;
  /** As the readable copy heads it; null where everything it says stands in another table of the copy. */
  readonly title: string | null;
  readonly category: PersonCategory;
  /** Which rows `t` are the person's; $1 is the studio, $2 the ids of all records of the person. */
  readonly rows: string;
  /** Whether erasing takes the row away, or what it sets in a row that others need. */
  readonly erase: 'delete' | { readonly set: Readonly<Record<string, string>> };
}

const ofClient = 't.client_id = ANY ($2)';
/** Rows by way of a table that names the client. */
const by = (column: string, parent: string): string =>
  `t.${column} IN (SELECT p.id FROM ${parent} p WHERE p.studio_id = $1 AND p.client_id = ANY ($2))`;
const ofSession = by('fit_session_id', 'fit_sessions');

const table =
  (category: PersonCategory) =>
  (
    name: string,
    title: string | null,
    rows = ofClient,
    erase: PersonTable['erase'] = 'delete',
  ): PersonTable => ({
    ...{ table: name, title, category, rows, erase },
  });
const contact = table('contact');
const health = table('health_record');
const accounts = table('accounts');

/**
 * Every table that holds something of a client, in the order in which rows can be taken away. A test asks of every table
 * of a studio whether it is here, or why not.
 */
export const personTables: readonly PersonTable[] = [
  contact('messages', 'Messages'),
  contact('task_changes', null, by('task_id', 'tasks')),
  contact('tasks', 'Tasks of the studio about you'),
  contact('slot_offers', 'Times offered', by('wish_id', 'slot_wishes')),
  contact('slot_wishes', 'Waiting list'),
  contact('intake_links', 'Questions sent, and answers not handed in'),
  contact('client_notes', 'Notes'),
  contact('client_links', 'Family and team', '(t.client_id = ANY ($2) OR t.other_id = ANY ($2))'),
  contact('client_merges', null, '(t.surviving_id = ANY ($2) OR t.merged_id = ANY ($2))'),
  // A row that was not taken over names nobody; it is known by what it says, and by a name only where no other has it.
  contact(
    'client_import_rows',
    'Lists you came from',
    `(${ofClient} OR t.client_id IS NULL AND EXISTS (
       SELECT FROM clients c WHERE c.studio_id = $1 AND c.id = ANY ($2)
          AND (c.email = ANY (t.cells) OR c.phone = ANY (t.cells)
               OR (c.given_name = ANY (t.cells) AND c.family_name = ANY (t.cells)
                   AND NOT EXISTS (
                     SELECT FROM clients o WHERE o.studio_id = $1 AND o.id <> ALL ($2)
                        AND o.given_name = c.given_name AND o.family_name = c.family_name)))))`,
  ),
  contact('person_exports', 'Copies made for you'),
  contact('follow_ups', null, ofClient, { set: { link_hash: 'NULL', message_id: 'NULL' } }),
  // A record that is kept needs a name and a birth date to be known by, and no way to reach anybody.
  contact('clients', null, 't.id = ANY ($2)', {
    set: {
      ...{ email: 'NULL', phone: 'NULL', phone_e164: 'NULL', undeliverable_email: 'NULL', language: 'NULL' },
      ...{ tags: `'{}'`, note: 'NULL' },
    },
  }),

  health('client_summaries', 'What we told you of the outcome', ofSession),
  health('ride_recordings', 'Rides', by('follow_up_id', 'follow_ups')),
  health('follow_up_answers', 'Follow-ups: answers', by('follow_up_id', 'follow_ups')),
  health('follow_up_changes', 'Follow-ups: changes', by('follow_up_id', 'follow_ups')),
  health('follow_ups', 'Follow-ups'),
  health('chosen_activities', 'Activities you named', ofSession),
  health('session_operations', null, ofSession),
  health('session_complaints', 'Complaints during a visit', ofSession),
  health('fit_changes', 'Changes to the bike', ofSession),
  health('stage_spans', 'Times of a visit', ofSession),
  health('paired_positions', 'Positions for two bikes'),
  health('session_advice', 'Advice for the first weeks', ofSession),
  health('plans', 'Plans', ofSession),
  health('positions', 'Positions', ofSession),
  health('measurements', 'Measurements', ofSession),
  health('baselines', 'How you were before', ofSession),
  health('motion_recordings', 'Motion', ofSession),
  health('amendments', 'Amendments', ofSession),
  health(
    'shoe_work_photos',
    null,
    `t.step_id IN (SELECT s.id FROM shoe_work_steps s JOIN shoe_works w ON w.studio_id = s.studio_id AND w.id = s.shoe_work_id
                    WHERE s.studio_id = $1 AND w.client_id = ANY ($2))`,
  ),
  health('shoe_work_steps', 'Shoe work: steps', by('shoe_work_id', 'shoe_works')),
  health('shoe_work_parts', 'Shoe work: parts', by('shoe_work_id', 'shoe_works')),
  health('shoe_work_consents', 'Shoe work: consents', by('shoe_work_id', 'shoe_works')),
  health('shoe_work_changes', 'Shoe work: changes', by('shoe_work_id', 'shoe_works')),
  health('bench_times', null, by('id', 'shoe_works')),
  health('shoe_works', 'Shoe work'),
  health('files', 'Photos and documents'),
  health('fit_sheets', 'Fit sheets', ofSession),
  health('outcome_summaries', 'Outcomes', ofClient, {
    set: {
      // Nothing leads to the person, nor two rows of studios to one another; the time is told by the month.
      id: 'gen_random_uuid()',
      client_id: '$3::uuid',
      fit_session_id: 'gen_random_uuid()',
      follow_up_id: 'CASE WHEN t.follow_up_id IS NOT NULL THEN gen_random_uuid() END',
      signed_at: `date_trunc('month', t.signed_at)`,
      first_due_at: `date_trunc('month', t.first_due_at)`,
      computed_at: `date_trunc('month', t.computed_at)`,
      created_at: `date_trunc('month', t.created_at)`,
    },
  }),
  health('fit_sessions', 'Visits'),
  health('clinician_scores', 'What a clinician of the studio found'),
  health('record_openings', 'Who opened your restricted record'),
  health('referral_findings', 'Referrals: findings', by('referral_id', 'referrals')),
  health('referrals', 'Referrals'),
  health('cleared_findings', 'Clearances: findings', by('clearance_id', 'clearances')),
  health('clearances', 'Clearances'),
  health('findings', 'Findings'),
  health('screenings', 'Screenings'),
  health('bike_parts', 'Bikes: parts', by('bike_id', 'bikes')),
  health('bikes', 'Bikes'),
  health('shoe_hardware', 'Shoes: hardware', by('shoe_id', 'shoes')),
  health('shoes', 'Shoes'),
  health('client_consents', 'Consents'),

  accounts('account_lines', 'Accounts: lines', by('document_id', 'account_documents'), {
    set: { description: `'erased'` },
  }),
  accounts('payments', 'Payments', ofClient, { set: { note: 'NULL' } }),
  accounts('account_documents', 'Accounts: documents', ofClient, {
    set: {
      buyer_name: 'NULL',
      buyer_address: 'NULL',
      buyer_tax_number: 'NULL',
      note: 'NULL',
      reason: `CASE WHEN t.reason IS NOT NULL THEN 'erased' END`,
    },
  }),
];

/**
 * What goes last, once nothing else of the person is left: visits then are nobody's ($3), so that hours, rooms and sums
 * still add up, and that something was asked stays without who asked it.
 */
export const lastOfPerson: readonly Omit<PersonTable, 'category'>[] = [
  {
    ...{
      table: 'appointment_changes',
      title: 'Bookings: changes',
      rows: by('appointment_id', 'appointments'),
    },
    erase: { set: { reason: 'NULL' } },
  },
  {
    ...{ table: 'appointments', title: 'Bookings', rows: ofClient },
    erase: { set: { client_id: '$3::uuid', cancel_reason: 'NULL' } },
  },
  { table: 'payments', title: null, rows: ofClient, erase: { set: { client_id: '$3::uuid' } } },
  { table: 'account_documents', title: null, rows: ofClient, erase: { set: { client_id: 'NULL' } } },
  {
    ...{ table: 'erasures', title: 'Erasure', rows: ofClient },
    erase: { set: { client_id: 'NULL' } },
  },
  {
    ...{ table: 'rights_requests', title: 'Your requests', rows: ofClient },
    erase: {
      set: { client_id: 'NULL', extended_because: 'NULL', identity_checked_how: 'NULL', decision: 'NULL' },
    },
  },
  // A child's record names who consented for it.
  {
    ...{ table: 'client_consents', title: null, rows: 't.guardian_id = ANY ($2)' },
    erase: { set: { guardian_id: 'NULL' } },
  },
  {
    ...{ table: 'shoe_work_consents', title: null, rows: 't.guardian_id = ANY ($2)' },
    erase: { set: { guardian_id: 'NULL' } },
  },
  {
    ...{ table: 'clients', title: null, rows: 't.guardian_id = ANY ($2)' },
    erase: { set: { guardian_id: 'NULL' } },
  },
  { table: 'clients', title: 'You', rows: 't.id = ANY ($2)', erase: 'delete' },
];
