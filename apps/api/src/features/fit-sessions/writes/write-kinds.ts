/** Every way of writing to a session; the registry must know each when the API starts. */
export const writeKinds = [
  'put_baseline',
  'add_measurement',
  'add_measurements',
  'correct_measurement',
  'withdraw_measurement',
  'put_position',
  'put_place',
  'start_timer',
  'stop_timer',
  'add_change',
  'put_change_response',
  'report_complaint',
] as const;
export type WriteKind = (typeof writeKinds)[number];
