/**
 * The starts a service may have from day $3 to day $4 by the clock of zone $5, each with the fitters and rooms free then,
 * by hand-written SQL: of a studio $1 that has no sites, exceptions or benches, for a service $2 that nothing cures after.
 */
export const slotsSql = `WITH
  offer AS (
    SELECT make_interval(mins => duration_minutes) AS duration,
           make_interval(mins => buffer_before_minutes) AS before,
           make_interval(mins => duration_minutes + buffer_after_minutes) AS after,
           required_skills, required_equipment
      FROM services WHERE studio_id = $1 AND id = $2),
  suitable AS (
    SELECT id, true AS fits FROM users, offer
     WHERE studio_id = $1 AND 'fitter' = ANY (roles) AND disabled_at IS NULL AND skills @> required_skills
     UNION ALL
    SELECT id, false FROM rooms, offer WHERE studio_id = $1 AND equipment @> required_equipment),
  day AS (SELECT d::date AS day FROM generate_series($3::date, $4::date, interval '1 day') d),
  open AS (
    SELECT s.id, s.fits, range_agg(
             tstzmultirange(tstzrange((day + make_interval(mins => h.from_minutes)) AT TIME ZONE $5,
                                      (day + make_interval(mins => h.until_minutes)) AT TIME ZONE $5))
             - coalesce((
                 SELECT range_agg(tstzrange((day + make_interval(mins => b."fromMinutes")) AT TIME ZONE $5,
                                            (day + make_interval(mins => b."untilMinutes")) AT TIME ZONE $5))
                   FROM jsonb_to_recordset(h.breaks) AS b ("fromMinutes" integer, "untilMinutes" integer)), '{}')) AS open
      FROM suitable s
      JOIN weekly_hours h ON h.studio_id = $1 AND s.id = CASE WHEN s.fits THEN h.staff_id ELSE h.room_id END
      JOIN day ON extract(isodow FROM day) = ANY (h.weekdays)
              AND h.valid_from <= day AND (h.valid_until IS NULL OR day <= h.valid_until)
     GROUP BY s.id, s.fits),
  visit AS (
    SELECT fitter_id, room_id, occupied FROM appointments
     WHERE studio_id = $1 AND state IN ('held', 'booked', 'checked_in', 'completed', 'no_show')
       AND (state <> 'held' OR hold_expires_at > now())
       AND taken_from > $3::date - interval '32 days' AND taken_from < $4::date + interval '2 days'
       AND occupied && tstzrange($3::date - interval '1 day', $4::date + interval '2 days')),
  taken AS (
    SELECT id, range_agg(occupied) AS taken
      FROM (SELECT fitter_id AS id, occupied FROM visit UNION ALL SELECT room_id, occupied FROM visit) one GROUP BY id),
  free AS (SELECT id, fits, unnest(open - coalesce(taken, '{}')) AS free FROM open LEFT JOIN taken USING (id)),
  start AS (
    SELECT id, fits, "startsAt"
      FROM free, offer, generate_series(
             date_bin('15 min', lower(free) + before + interval '15 min' - interval '1 us', timestamptz 'epoch'),
             upper(free) - after, interval '15 min') "startsAt")
  SELECT "startsAt", array_agg(id ORDER BY id) FILTER (WHERE fits) AS "fitterIds",
         array_agg(id ORDER BY id) FILTER (WHERE NOT fits) AS "roomIds"
    FROM start GROUP BY "startsAt" HAVING bool_or(fits) AND NOT bool_and(fits) ORDER BY "startsAt"`;

/** @typedef {{ startsAt: Date, fitterIds: string[], roomIds: string[] }} SlotBySql */
