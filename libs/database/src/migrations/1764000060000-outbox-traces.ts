import type { MigrationInterface, QueryRunner } from 'typeorm';

/** An order keeps the trace it is part of, whoever writes it: the transaction says which, where traces are made. */
export class OutboxTraces1764000060000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(
      `ALTER TABLE outbox ADD COLUMN traceparent text,
         ALTER COLUMN traceparent SET DEFAULT nullif(current_setting('app.traceparent', true), '')`,
    );
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('ALTER TABLE outbox DROP COLUMN traceparent');
  }
}
