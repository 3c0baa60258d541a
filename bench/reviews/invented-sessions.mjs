// Invented studios with signed sessions and what came back, written by COPY. The same seed gives the same rows.
import { pipeline } from 'node:stream/promises';
import { Readable } from 'node:stream';
import copyStreams from 'pg-copy-streams';
import { seeded } from '../seeded.mjs';

const dayMs = 86_400_000;

/**
 * @typedef {{ seed: number, studios: number, sessionsPerStudio: number, now: Date }} Options
 * @typedef {{ pain: number | null, comfort: number | null, numbness: boolean | null, power20MinW: number | null }} Report
 * @typedef {Record<string, string | number | null>} Told by question; null where it was not answered
 * @typedef {{
 *   studio: number, index: number, client: number, signedAt: Date, way: string | null, movesBackMm: number,
 *   shortOfMidfootMm: number, footPitchDeg: number, predictedMm: number, leftMm: number, before: Report, ability: number | null,
 *   answers: readonly { week: number, state: string, report: Report, told: Told }[],
 * }} Session
 */

/**
 * True effects: pain falls by 2 and comfort rises by 12, by half as much again at midfoot; power does not change; a
 * saddle is left 1 mm higher than computed. One in four does not answer, more often in pain; one in twelve cannot be
 * asked; answers have gaps.
 *
 * @param {Options} options
 * @param {number} studio
 * @param {number} index
 * @returns {Session}
 */
export function inventedSession({ seed, sessionsPerStudio, now }, studio, index) {
  const random = seeded(
    Math.imul(seed + 1, 0x9e3779b1) ^ Math.imul(studio + 1, 0x85ebca6b) ^ Math.imul(index + 1, 0xc2b2ae35),
  );
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  /** @param {number} value @param {number} low @param {number} high */
  const whole = (value, low, high) => Math.min(high, Math.max(low, Math.round(value)));
  /** @template T @param {number} chance @param {T} value @returns {T | null} */
  const unless = (chance, value) => (random() < chance ? null : value);

  // Spread over two years, the last of them signed two months ago, so that every follow-up has come due.
  const signedAt = new Date(
    now.getTime() - (60 + (730 * (sessionsPerStudio - index)) / sessionsPerStudio) * dayMs,
  );
  const kind = random();
  const way =
    kind < 0.2 ? null : kind < 0.5 ? 'within_slots' : kind < 0.8 ? 'rear_plate_24' : 'arch_base_four_bolt';
  const midfoot = way === 'arch_base_four_bolt';
  const movesBackMm = way === null ? 0 : midfoot ? 58 : way === 'rear_plate_24' ? 27 : 6;
  const footPitchDeg = 8 + 12 * normal();
  const predictedMm = -movesBackMm * Math.sin((footPitchDeg * Math.PI) / 180);
  const effect = midfoot ? 1.5 : 1;

  const painBefore = whole(5 + 2 * normal(), 0, 10);
  const comfortBefore = whole(50 + 15 * normal(), 0, 100);
  const powerBefore = 240 + 40 * normal();
  const numbBefore = random() < 0.35;
  const before = {
    pain: unless(0.05, painBefore),
    comfort: unless(0.1, comfortBefore),
    numbness: unless(0.05, numbBefore),
    power20MinW: unless(0.35, powerBefore),
  };
  const cannotBeAsked = random() < 1 / 12;
  const silent = random() < 0.15 + 0.02 * painBefore;
  const answers = [2, 6].map((week) => {
    const answered = !cannotBeAsked && !silent && random() < 0.85;
    const report = {
      pain: unless(0.05, whole(painBefore - 2 * effect + 1.3 * normal(), 0, 10)),
      comfort: unless(0.1, whole(comfortBefore + 12 * effect + 10 * normal(), 0, 100)),
      numbness: unless(0.05, numbBefore && random() < 0.4),
      power20MinW: unless(0.4, powerBefore * (1 + 0.029 * Math.SQRT2 * normal())),
    };
    return { week, state: answered ? 'answered' : cannotBeAsked ? 'cancelled' : 'sent', report };
  });
  const ability = unless(0.4, whole(4 + 1.5 * normal(), 0, 10));
  const feel = () =>
    ['much_better', 'better', 'same', 'worse', 'much_worse', 'not_tried'][whole(6 * random() - 0.5, 0, 5)] ??
    'same';
  const toldAt = () => ({
    activity_1: ability === null ? null : unless(0.05, whole(ability + 1.5 * effect + 1.3 * normal(), 0, 10)),
    overall_change: unless(0.1, String(whole(2 * effect + 1.5 * normal(), -5, 5))),
    walking_comfort: unless(0.5, whole(7 + 1.5 * normal(), 0, 10)),
    sprint_feel: unless(0.5, feel()),
    standing_feel: unless(0.6, feel()),
  });
  return {
    studio,
    index,
    // Every tenth rider comes a second time.
    client: index % 10 === 9 ? index - 5 : index,
    signedAt,
    way,
    movesBackMm,
    shortOfMidfootMm: 58 - movesBackMm,
    footPitchDeg,
    predictedMm,
    leftMm: Math.round(predictedMm + 1 + 2 * normal()),
    before,
    ability,
    answers: answers.map((answer) => ({ ...answer, told: toldAt() })),
  };
}

const kinds = /** @type {const} */ ([
  'studio',
  'user',
  'client',
  'bike',
  'shoe',
  'screening',
  'session',
  'baseline',
  'position',
  'plan',
  'followUp',
  'activity',
]);

/**
 * @param {(typeof kinds)[number]} kind
 * @param {number} studio
 * @param {number} index
 */
export function inventedId(kind, studio, index) {
  /** @param {number} value @param {number} digits */
  const hex = (value, digits) => value.toString(16).padStart(digits, '0');
  return `0${hex(kinds.indexOf(kind) + 1, 7)}-${hex(studio, 4)}-7000-8000-${hex(index, 12)}`;
}

/** @typedef {string | number | boolean | Date | null} Cell */

/** @type {Readonly<Record<string, { columns: string, rows: (session: Session) => Cell[][] }>>} */
const ofSession = {
  clients: {
    columns: 'studio_id, id, given_name, family_name',
    rows: ({ studio, index, client }) =>
      client === index
        ? [
            [
              inventedId('studio', studio, 0),
              inventedId('client', studio, client),
              'Robin',
              `Rider ${client}`,
            ],
          ]
        : [],
  },
  bikes: {
    columns: 'studio_id, id, client_id, name, crank_length_mm, seat_tube_angle_deg, kind, uses',
    rows: ({ studio, index, client }) =>
      client === index
        ? [
            [
              inventedId('studio', studio, 0),
              inventedId('bike', studio, client),
              inventedId('client', studio, client),
              'Bike',
              172.5,
              73,
              client % 4 === 0 ? 'gravel' : 'road',
              client % 3 === 0 ? '{racing,training}' : '{touring}',
            ],
          ]
        : [],
  },
  shoes: {
    columns:
      'studio_id, id, client_id, name, outer_length_mm, hole_pattern, slot_front_from_heel_mm, slot_rear_from_heel_mm, arch_channel',
    rows: ({ studio, index, client }) =>
      client === index
        ? [
            [
              inventedId('studio', studio, 0),
              inventedId('shoe', studio, client),
              inventedId('client', studio, client),
              'Shoes',
              290,
              'four_bolt',
              212,
              197,
              false,
            ],
          ]
        : [],
  },
  screenings: {
    columns:
      'studio_id, id, client_id, occasion, question_set_id, question_set_version, answers, rule_set_version, result, permission_level',
    rows: ({ studio, index, client }) =>
      client === index
        ? [
            [
              inventedId('studio', studio, 0),
              inventedId('screening', studio, client),
              inventedId('client', studio, client),
              'intake',
              'rider-intake',
              '1',
              '{}',
              '1',
              '{}',
              'full',
            ],
          ]
        : [],
  },
  fit_sessions: {
    columns:
      'studio_id, id, client_id, bike_id, shoe_id, fitter_id, screening_id, signed_at, signed_by, content_hash, created_at',
    rows: ({ studio, index, client, signedAt }) => [
      [
        inventedId('studio', studio, 0),
        inventedId('session', studio, index),
        inventedId('client', studio, client),
        inventedId('bike', studio, client),
        inventedId('shoe', studio, client),
        inventedId('user', studio, index % 2),
        inventedId('screening', studio, client),
        signedAt,
        inventedId('user', studio, index % 2),
        'invented',
        signedAt,
      ],
    ],
  },
  baselines: {
    columns: 'studio_id, id, fit_session_id, pain, comfort, numbness, power_20_min_w',
    rows: ({ studio, index, before }) => [
      [
        inventedId('studio', studio, 0),
        inventedId('baseline', studio, index),
        inventedId('session', studio, index),
        before.pain,
        before.comfort,
        before.numbness,
        before.power20MinW,
      ],
    ],
  },
  positions: {
    columns:
      'studio_id, id, fit_session_id, stage, saddle_height_mm, saddle_setback_mm, bar_drop_mm, bar_reach_mm, cleat_behind_mth1_left_mm, cleat_behind_mth1_right_mm',
    rows: ({ studio, index, leftMm, movesBackMm }) =>
      ['found', 'left'].map((stage, at) => [
        inventedId('studio', studio, 0),
        inventedId('position', studio, 2 * index + at),
        inventedId('session', studio, index),
        stage,
        740 + at * leftMm,
        60,
        60,
        530,
        5 + at * movesBackMm,
        5 + at * movesBackMm,
      ]),
  },
  plans: {
    columns:
      'studio_id, id, fit_session_id, kind, side, inputs, result, formula_version, chosen_option, chosen_because, saddle_offset_mm',
    rows: ({ studio, index, way, footPitchDeg, predictedMm, shortOfMidfootMm, movesBackMm }) =>
      way === null
        ? []
        : ['left', 'right'].map((side, at) => {
            // The sides differ a little; where the cleat is follows from what is measured on the foot.
            const pitch = footPitchDeg + (at === 0 ? -1 : 1);
            const inputs = {
              mth1FromHeelMm: 145 + shortOfMidfootMm + 5 + movesBackMm,
              rider: { footPitch: { kind: 'constant', pitchDeg: pitch } },
            };
            const option = {
              way,
              movesBackMm,
              saddleHeightChangeMm: { value: predictedMm + (at === 0 ? -0.5 : 0.5), sd: 1.5 },
            };
            const result = {
              formulaVersion: '1',
              midfootFromHeelMm: 145,
              options: [{ ...option, way: 'slot_extension' }, option],
            };
            return [
              inventedId('studio', studio, 0),
              inventedId('plan', studio, 2 * index + at),
              inventedId('session', studio, index),
              'cleat',
              side,
              JSON.stringify(inputs),
              JSON.stringify(result),
              '1',
              way,
              'Invented.',
              0,
            ];
          }),
  },
  follow_ups: {
    columns:
      'studio_id, id, fit_session_id, client_id, plan_id, plan_version, step_id, step, days_after, week, due_at, state, sent_at, answered_at, pain, comfort, numbness, power_20_min_w',
    rows: ({ studio, index, client, signedAt, answers }) =>
      answers.map(({ week, state, report }, at) => {
        const dueAt = new Date(signedAt.getTime() + week * 7 * dayMs);
        const answered = state === 'answered';
        return [
          inventedId('studio', studio, 0),
          inventedId('followUp', studio, 2 * index + at),
          inventedId('session', studio, index),
          inventedId('client', studio, client),
          'small-change',
          1,
          `week-${week}`,
          '{}',
          7 * week,
          week,
          dueAt,
          state,
          state === 'cancelled' ? null : dueAt,
          answered ? new Date(dueAt.getTime() + dayMs) : null,
          answered ? report.pain : null,
          answered ? report.comfort : null,
          answered ? report.numbness : null,
          answered ? report.power20MinW : null,
        ];
      }),
  },
  chosen_activities: {
    columns: 'studio_id, id, fit_session_id, position, activity, ability',
    rows: ({ studio, index, ability }) =>
      ability === null
        ? []
        : [
            [
              inventedId('studio', studio, 0),
              inventedId('activity', studio, index),
              inventedId('session', studio, index),
              1,
              'Invented.',
              ability,
            ],
          ],
  },
  follow_up_answers: {
    columns: 'studio_id, follow_up_id, question, answer',
    rows: ({ studio, index, answers }) =>
      answers.flatMap(({ state, told }, at) =>
        state !== 'answered'
          ? []
          : Object.entries(told).flatMap(([question, answer]) =>
              answer === null
                ? []
                : [
                    [
                      inventedId('studio', studio, 0),
                      inventedId('followUp', studio, 2 * index + at),
                      question,
                      JSON.stringify(answer),
                    ],
                  ],
            ),
      ),
  },
};

/** @param {Cell} cell */
const copied = (cell) => (cell === null ? '\\N' : cell instanceof Date ? cell.toISOString() : String(cell));

/**
 * Write the studios. Triggers and foreign keys rest meanwhile, so it takes a superuser.
 *
 * @param {import('pg').Client} admin
 * @param {Options} options
 * @param {(table: string) => void} [progress]
 */
export async function inventSessions(admin, options, progress = () => undefined) {
  const { studios, sessionsPerStudio } = options;
  /** @param {string} table @param {string} columns @param {Iterable<string>} lines */
  const copy = async (table, columns, lines) => {
    progress(table);
    await pipeline(
      Readable.from(lines),
      admin.query(copyStreams.from(`COPY ${table} (${columns}) FROM STDIN`)),
    );
  };
  await admin.query(`SET session_replication_role = replica`);
  await copy(
    'studios',
    'id, name, time_zone',
    Array.from(
      { length: studios },
      (_, studio) => `${inventedId('studio', studio, 0)}\tStudio ${studio}\tEurope/Copenhagen\n`,
    ),
  );
  await copy(
    'users',
    'studio_id, id, email, display_name, password_hash, roles',
    Array.from({ length: 2 * studios }, (_, at) => {
      const studio = Math.floor(at / 2);
      const id = inventedId('user', studio, at % 2);
      return `${inventedId('studio', studio, 0)}\t${id}\t${id}@studio.example\tFitter ${at % 2}\tnone\t{owner,fitter}\n`;
    }),
  );
  for (const [table, { columns, rows }] of Object.entries(ofSession)) {
    const lines = function* () {
      // As time would have it: the studios' rows lie between one another.
      for (let index = 0; index < sessionsPerStudio; index += 1) {
        let chunk = '';
        for (let studio = 0; studio < studios; studio += 1) {
          for (const row of rows(inventedSession(options, studio, index)))
            chunk += `${row.map(copied).join('\t')}\n`;
        }
        if (chunk !== '') yield chunk;
      }
    };
    await copy(table, columns, lines());
  }
  await admin.query(`RESET session_replication_role`);
  await admin.query('ANALYZE');
}
