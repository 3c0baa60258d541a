import type { EntityManager } from 'typeorm';
import type { Schedule } from '../schedules.js';

/** Whether this transaction is the one that goes through the schedules now; it is until it ends. */
export async function claimScheduling(tx: EntityManager): Promise<boolean> {
  const [{ claimed }] = await tx.query<[{ claimed: boolean }]>(
    `SELECT pg_try_advisory_xact_lock(hashtextextended('schedules', 0)) AS claimed`,
  );
  return claimed;
}

/** Handles are the one thing that tells of every studio before one is known. */
export async function listStudioIds(tx: EntityManager): Promise<string[]> {
  const rows = await tx.query<{ id: string }[]>(
    'SELECT DISTINCT studio_id AS id FROM studio_handles ORDER BY 1',
  );
  return rows.map(({ id }) => id);
}

/**
 * Takes the turns that have come for a studio and were not taken yet: whoever is second finds nothing.
 *
 * @returns names of the schedules whose job is now to be ordered
 */
export async function takeTurns(
  tx: EntityManager,
  studioId: string,
  schedules: readonly Schedule[],
): Promise<string[]> {
  const rows = await tx.query<{ schedule: string }[]>(
    `INSERT INTO schedule_turns (studio_id, schedule, turn)
     SELECT s.id, k.schedule, CASE
              WHEN k.seconds IS NOT NULL THEN
                to_char(to_timestamp(floor(extract(epoch FROM app_now()) / k.seconds) * k.seconds) AT TIME ZONE 'UTC',
                        'YYYY-MM-DD"T"HH24:MI"Z"')
              ELSE to_char((app_now() AT TIME ZONE s.time_zone) - make_interval(hours => k.hour), 'YYYY-MM-DD')
            END
       FROM studios s
      CROSS JOIN unnest($2::text[], $3::text[], $4::integer[], $5::integer[]) AS k (schedule, job, seconds, hour)
      WHERE s.id = $1
        AND NOT EXISTS (SELECT FROM outbox o
                         WHERE o.studio_id = s.id AND o.job = k.job AND o.done_at IS NULL AND o.gave_up_at IS NULL)
     ON CONFLICT ON CONSTRAINT schedule_turns_once
       DO UPDATE SET turn = excluded.turn, created_at = excluded.created_at
        WHERE schedule_turns.turn < excluded.turn
     RETURNING schedule`,
    [
      studioId,
      schedules.map(({ name }) => name),
      schedules.map(({ job }) => job),
      schedules.map(({ turns }) => ('everyMinutes' in turns ? turns.everyMinutes * 60 : null)),
      schedules.map(({ turns }) => ('dailyFromHour' in turns ? turns.dailyFromHour : null)),
    ],
  );
  return rows.map(({ schedule }) => schedule);
}
