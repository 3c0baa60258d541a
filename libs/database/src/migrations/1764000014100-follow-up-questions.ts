import type { MigrationInterface, QueryRunner } from 'typeorm';

/** What was promised before follow-ups asked how it went asks it too, unless it was answered already. */
export class FollowUpQuestions1764000014100 implements MigrationInterface {
  up(runner: QueryRunner): Promise<void> {
    return promiseVersion(runner, '2', '3');
  }

  down(runner: QueryRunner): Promise<void> {
    return promiseVersion(runner, '3', '2');
  }
}

async function promiseVersion(runner: QueryRunner, from: string, to: string): Promise<void> {
  // The owner of the schema sees every studio only while row-level security is not forced on it.
  await runner.query('ALTER TABLE follow_ups NO FORCE ROW LEVEL SECURITY');
  await runner.query(
    `UPDATE follow_ups SET step = jsonb_set(step, '{questionSet,version}', to_jsonb($2::text))
      WHERE answered_at IS NULL AND step->'questionSet' = jsonb_build_object('id', 'since-the-fit', 'version', $1::text)`,
    [from, to],
  );
  await runner.query('ALTER TABLE follow_ups FORCE ROW LEVEL SECURITY');
}
