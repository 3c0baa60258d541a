import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * Of a session's outcome also what follow-ups ask of own activities, all in all, walking and hard efforts, and which
 * crank and leg-length option it left.
 */
export class MoreOutcomes1764000023000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(
      `ALTER TABLE outcome_summaries
         ADD COLUMN activities_before double precision,
         ADD COLUMN activities_after double precision,
         ADD COLUMN overall_change smallint,
         ADD COLUMN walking_comfort smallint,
         ADD COLUMN sprint_feel text,
         ADD COLUMN standing_feel text,
         ADD COLUMN crank_change_mm double precision,
         ADD COLUMN leg_length_option text,
         ADD CONSTRAINT outcome_summaries_feel_known CHECK (sprint_feel IN (${feels}) AND standing_feel IN (${feels}))`,
    );
    // A summary can be made anew at any time. The owner of the schema sees every studio only while it is not forced.
    for (const table of ['fit_sessions', 'outbox']) {
      await runner.query(`ALTER TABLE ${table} NO FORCE ROW LEVEL SECURITY`);
    }
    await runner.query(
      `INSERT INTO outbox (studio_id, job, payload)
         SELECT studio_id, 'summarise-outcome', jsonb_build_object('fitSessionId', id)
           FROM fit_sessions WHERE signed_at IS NOT NULL`,
    );
    for (const table of ['fit_sessions', 'outbox']) {
      await runner.query(`ALTER TABLE ${table} FORCE ROW LEVEL SECURITY`);
    }
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(
      `ALTER TABLE outcome_summaries
         DROP COLUMN activities_before, DROP COLUMN activities_after, DROP COLUMN overall_change,
         DROP COLUMN walking_comfort, DROP COLUMN sprint_feel, DROP COLUMN standing_feel,
         DROP COLUMN crank_change_mm, DROP COLUMN leg_length_option`,
    );
  }
}

const feels = `'much_better', 'better', 'same', 'worse', 'much_worse', 'not_tried'`;
