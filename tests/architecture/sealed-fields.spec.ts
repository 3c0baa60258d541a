import { expect, it } from '@jest/globals';
import { entityMetadatas, exportedTables, type ExportedTable } from '@studio/database';

/**
 * Text and JSON that is kept of a person and lies in clear: docs/operations/threat-model.md says why. A new column is
 * sealed (`transformer: sealedColumn`) or comes in here.
 */
const inClear: Readonly<Record<string, string>> = {
  account_documents:
    'kind state buyer_name buyer_address buyer_tax_number note currency series seller reason',
  account_lines: 'description tax_class',
  appointment_changes: 'action state during reason',
  appointments: 'during occupied curing state cancel_reason',
  bike_parts: 'kind description facts',
  bikes: 'name kind contact_points uses',
  clearances: 'cleared_by_clinician registration scope',
  client_consents: 'kind text_version',
  client_import_rows: 'cells fields problems decision state',
  client_links: 'kind',
  client_summaries: 'method_version',
  clients: 'given_name family_name email phone phone_e164 tags language undeliverable_email',
  erasures: 'category kept_by_law',
  files: 'file_name media_type sha256',
  findings: 'rule_id',
  fit_changes: 'items',
  fit_sessions: 'place_stage content_hash',
  fit_sheets: 'audience paper lengths language state figures',
  follow_up_answers: 'question',
  follow_up_changes: 'kind reason state_after',
  follow_ups: 'plan_id step_id step state state_reason message_id urgent_rules',
  intake_links: 'question_set_id question_set_version delivery message_id urgent_rules',
  measurements: 'kind side method typed unit warning',
  messages: 'template data channel state last_error message_id address language text_version subject body',
  motion_recordings: 'side film sha256 result formula_version',
  outcome_summaries: 'answer_state sprint_feel standing_feel leg_length_option',
  paired_positions: 'first_use second_use side inputs foot_pitch_from result formula_version',
  payments: 'kind method currency note',
  person_exports: 'state',
  plans: 'kind side inputs foot_pitch_from added result formula_version chosen_option',
  positions: 'stage methods hardware_left hardware_right',
  referrals: 'route state answering_clinician answering_registration',
  ride_recordings: 'format power_20_min_words notes',
  rights_requests: 'kind state extended_because identity_checked_how decision',
  screenings: 'occasion question_set_id question_set_version rule_set_version permission_level',
  session_advice: 'stage language',
  session_complaints: 'sites',
  shoe_hardware: 'side kind note',
  shoe_work_changes: 'state reason',
  shoe_work_consents: 'text_version language signed_name',
  shoe_work_steps: 'step shoe values',
  shoe_works: 'way fixing shoe_facts procedure_version state curing cure_source',
  shoes: 'name hole_pattern size_system sole_curve sole_material',
  slot_offers: 'state',
  slot_wishes: 'times state',
  stage_spans: 'stage',
  tasks: 'kind role state',
};

/** No dates, numbers or ids. */
function isText({ type, format, items }: ExportedTable['columns'][number]['schema']): boolean {
  if (type === undefined) return true;
  if (typeof items === 'object' && items !== null) return isText(items as Record<string, unknown>);
  return format === undefined && [type].flat().includes('string');
}

it('what is written of a person is sealed, or lies in clear on purpose', async () => {
  const found = new Map<string, Set<string>>();
  for (const { table, columns } of exportedTables(await entityMetadatas())) {
    const clear = columns.filter(({ sealed, schema }) => isText(schema) && !sealed);
    if (clear.length === 0) continue;
    found.set(table, new Set([...(found.get(table) ?? []), ...clear.map(({ column }) => column)]));
  }
  expect(Object.fromEntries([...found].map(([table, columns]) => [table, [...columns].join(' ')]))).toEqual(
    inClear,
  );
});
