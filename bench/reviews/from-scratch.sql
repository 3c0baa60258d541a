-- Every signed session's outcome straight from the record: what the worker's summaries must say, and what a review
-- would cost without them. Of studio $1; of all studios when it is null.
WITH plan AS (
  SELECT DISTINCT ON (studio_id, fit_session_id, side)
         studio_id, fit_session_id, side, saddle_offset_mm,
         (SELECT (option -> 'saddleHeightChangeMm' ->> 'value')::double precision
            FROM jsonb_array_elements(result -> 'options') AS option
           WHERE option ->> 'way' = chosen_option) AS saddle_change_mm,
         CASE inputs -> 'rider' -> 'footPitch' ->> 'kind'
           WHEN 'constant' THEN (inputs -> 'rider' -> 'footPitch' ->> 'pitchDeg')::double precision
           ELSE (SELECT avg(reading::double precision)
                   FROM jsonb_array_elements_text(inputs -> 'rider' -> 'footPitch' -> 'readingsDeg') AS reading)
         END AS foot_pitch_deg,
         (inputs ->> 'mth1FromHeelMm')::double precision AS mth1_from_heel_mm,
         (result ->> 'midfootFromHeelMm')::double precision AS midfoot_from_heel_mm
    FROM plans
   WHERE kind = 'cleat' AND ($1::uuid IS NULL OR studio_id = $1)
   ORDER BY studio_id, fit_session_id, side, id DESC
),
followed AS (
  SELECT studio_id, fit_session_id, min(due_at) AS first_due_at,
         CASE WHEN bool_or(state = 'answered') THEN 'answered'
              WHEN bool_or(state IN ('sent', 'reminded', 'phoned', 'unanswered')) THEN 'asked'
              WHEN bool_or(state = 'scheduled') THEN 'waiting'
              ELSE 'not_asked' END AS answer_state,
         (array_agg(id ORDER BY answered_at DESC) FILTER (WHERE state = 'answered'))[1] AS follow_up_id,
         (array_agg(pain ORDER BY answered_at DESC) FILTER (WHERE state = 'answered' AND pain IS NOT NULL))[1] AS pain,
         (array_agg(comfort ORDER BY answered_at DESC)
            FILTER (WHERE state = 'answered' AND comfort IS NOT NULL))[1] AS comfort,
         (array_agg(numbness ORDER BY answered_at DESC)
            FILTER (WHERE state = 'answered' AND numbness IS NOT NULL))[1] AS numbness,
         (array_agg(power_20_min_w ORDER BY answered_at DESC)
            FILTER (WHERE state = 'answered' AND power_20_min_w IS NOT NULL))[1] AS power_20_min_w
    FROM follow_ups
   WHERE counts_as_outcome AND ($1::uuid IS NULL OR studio_id = $1)
   GROUP BY studio_id, fit_session_id
),
told AS MATERIALIZED (
  SELECT f.studio_id, f.fit_session_id, f.answered_at,
         (array_agg((a.answer #>> '{}')::int) FILTER (WHERE a.question = 'activity_1'))[1] AS activity_1,
         (array_agg((a.answer #>> '{}')::int) FILTER (WHERE a.question = 'activity_2'))[1] AS activity_2,
         (array_agg((a.answer #>> '{}')::int) FILTER (WHERE a.question = 'activity_3'))[1] AS activity_3,
         (array_agg((a.answer #>> '{}')::int) FILTER (WHERE a.question = 'overall_change'))[1] AS overall_change,
         (array_agg((a.answer #>> '{}')::int) FILTER (WHERE a.question = 'walking_comfort'))[1] AS walking_comfort,
         (array_agg(a.answer #>> '{}') FILTER (WHERE a.question = 'sprint_feel'))[1] AS sprint_feel,
         (array_agg(a.answer #>> '{}') FILTER (WHERE a.question = 'standing_feel'))[1] AS standing_feel
    FROM follow_ups f
    JOIN follow_up_answers a ON a.studio_id = f.studio_id AND a.follow_up_id = f.id
   WHERE f.counts_as_outcome AND f.state = 'answered' AND ($1::uuid IS NULL OR f.studio_id = $1)
   GROUP BY f.studio_id, f.id
),
last_told AS MATERIALIZED (
  SELECT studio_id, fit_session_id,
         (array_agg(ARRAY[activity_1, activity_2, activity_3] ORDER BY answered_at DESC)
            FILTER (WHERE num_nonnulls(activity_1, activity_2, activity_3) > 0))[1:1] AS activities,
         (array_agg(overall_change ORDER BY answered_at DESC) FILTER (WHERE overall_change IS NOT NULL))[1] AS overall_change,
         (array_agg(walking_comfort ORDER BY answered_at DESC)
            FILTER (WHERE walking_comfort IS NOT NULL))[1] AS walking_comfort,
         (array_agg(sprint_feel ORDER BY answered_at DESC) FILTER (WHERE sprint_feel IS NOT NULL))[1] AS sprint_feel,
         (array_agg(standing_feel ORDER BY answered_at DESC) FILTER (WHERE standing_feel IS NOT NULL))[1] AS standing_feel
    FROM told GROUP BY studio_id, fit_session_id
),
named AS MATERIALIZED (
  SELECT c.studio_id, c.fit_session_id,
         avg(c.ability) FILTER (WHERE t.activities IS NULL OR t.activities[1][c.position] IS NOT NULL)::float8 AS before
    FROM chosen_activities c
    LEFT JOIN last_told t ON t.studio_id = c.studio_id AND t.fit_session_id = c.fit_session_id
   WHERE $1::uuid IS NULL OR c.studio_id = $1
   GROUP BY c.studio_id, c.fit_session_id
),
legs AS MATERIALIZED (
  SELECT DISTINCT ON (studio_id, fit_session_id) studio_id, fit_session_id, chosen_option
    FROM plans WHERE kind = 'leg_length' AND chosen_option IS NOT NULL AND ($1::uuid IS NULL OR studio_id = $1)
   ORDER BY studio_id, fit_session_id, id DESC
),
planned AS (
  SELECT p.studio_id, p.fit_session_id,
         avg(p.saddle_change_mm) AS saddle_change_predicted_mm, avg(p.saddle_offset_mm) AS saddle_offset_mm,
         avg(p.foot_pitch_deg) AS foot_pitch_deg,
         avg(p.mth1_from_heel_mm - p.midfoot_from_heel_mm
             - CASE p.side WHEN 'left' THEN l.cleat_behind_mth1_left_mm ELSE l.cleat_behind_mth1_right_mm END)
           AS cleat_short_of_midfoot_mm
    FROM plan p
    LEFT JOIN positions l ON l.studio_id = p.studio_id AND l.fit_session_id = p.fit_session_id AND l.stage = 'left' AND l.superseded_at IS NULL
   GROUP BY p.studio_id, p.fit_session_id
)
SELECT s.studio_id, s.id AS fit_session_id, s.client_id, s.fitter_id, s.signed_at, f.first_due_at,
       coalesce(f.answer_state, 'not_asked') AS answer_state, f.follow_up_id,
       b.pain AS pain_before, f.pain AS pain_after, b.comfort AS comfort_before, f.comfort AS comfort_after,
       b.numbness AS numbness_before, f.numbness AS numbness_after,
       b.power_20_min_w AS power_20_min_before_w, f.power_20_min_w AS power_20_min_after_w,
       n.saddle_change_predicted_mm, coalesce(n.saddle_offset_mm, 0) AS saddle_offset_mm,
       l.saddle_height_mm - d.saddle_height_mm AS saddle_change_left_mm,
       (l.cleat_behind_mth1_left_mm - d.cleat_behind_mth1_left_mm
        + l.cleat_behind_mth1_right_mm - d.cleat_behind_mth1_right_mm) / 2 AS cleat_moved_back_mm,
       n.cleat_short_of_midfoot_mm, n.foot_pitch_deg,
       a.before AS activities_before,
       (SELECT avg(ability)::float8 FROM unnest(t.activities) AS ability) AS activities_after,
       t.overall_change, t.walking_comfort, t.sprint_feel, t.standing_feel,
       l.crank_length_mm - d.crank_length_mm AS crank_change_mm, g.chosen_option AS leg_length_option
  FROM fit_sessions s
  LEFT JOIN followed f ON f.studio_id = s.studio_id AND f.fit_session_id = s.id
  LEFT JOIN baselines b ON b.studio_id = s.studio_id AND b.fit_session_id = s.id
  LEFT JOIN positions d ON d.studio_id = s.studio_id AND d.fit_session_id = s.id AND d.stage = 'found' AND d.superseded_at IS NULL
  LEFT JOIN positions l ON l.studio_id = s.studio_id AND l.fit_session_id = s.id AND l.stage = 'left' AND l.superseded_at IS NULL
  LEFT JOIN planned n ON n.studio_id = s.studio_id AND n.fit_session_id = s.id
  LEFT JOIN last_told t ON t.studio_id = s.studio_id AND t.fit_session_id = s.id
  LEFT JOIN named a ON a.studio_id = s.studio_id AND a.fit_session_id = s.id
  LEFT JOIN legs g ON g.studio_id = s.studio_id AND g.fit_session_id = s.id
 WHERE s.signed_at IS NOT NULL AND ($1::uuid IS NULL OR s.studio_id = $1)
