import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/**
 * PostgreSQL counts the tries of an order and keeps its place while it waits for the next; what a studio has in flight
 * is counted by job; a schedule's last turn is known of every studio.
 */
export class FairOutbox1764000015000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE schedule_turns');
    await runner.query('REVOKE DELETE ON outbox FROM fitting_worker');
    await runner.query('DROP INDEX outbox_due, outbox_waiting, outbox_in_flight, outbox_given_up');
    await runner.query(`CREATE INDEX outbox_open ON outbox (available_at)
                          WHERE done_at IS NULL AND gave_up_at IS NULL`);
    await runner.query(
      'ALTER TABLE outbox DROP COLUMN attempts, DROP COLUMN due_at, DROP COLUMN discarded_at',
    );
  }
}

const statements = [
  `ALTER TABLE outbox ADD COLUMN attempts integer NOT NULL DEFAULT 0,
     ADD COLUMN due_at timestamptz,
     ADD COLUMN discarded_at timestamptz,
     ADD CONSTRAINT outbox_discarded_given_up CHECK (discarded_at IS NULL OR gave_up_at IS NOT NULL)`,
  `DROP INDEX outbox_open`,
  // Who has something due; and of one studio and job, what comes next.
  `CREATE INDEX outbox_due ON outbox (available_at, studio_id, job)
     WHERE relayed_at IS NULL AND done_at IS NULL AND gave_up_at IS NULL`,
  `CREATE INDEX outbox_waiting ON outbox (studio_id, job, available_at)
     WHERE relayed_at IS NULL AND done_at IS NULL AND gave_up_at IS NULL`,
  `CREATE INDEX outbox_in_flight ON outbox (studio_id, job)
     WHERE relayed_at IS NOT NULL AND done_at IS NULL AND gave_up_at IS NULL`,
  `CREATE INDEX outbox_given_up ON outbox (studio_id, id) WHERE gave_up_at IS NOT NULL`,
  // What was done long ago is forgotten.
  `GRANT DELETE ON outbox TO fitting_worker`,

  `CREATE TABLE schedule_turns (
     studio_id uuid NOT NULL CONSTRAINT schedule_turns_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     schedule text NOT NULL,
     turn text NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT schedule_turns_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT schedule_turns_once UNIQUE (studio_id, schedule)
   )`,
  ...tenantTable('schedule_turns'),
];
