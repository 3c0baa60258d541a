import type { MigrationInterface, QueryRunner } from 'typeorm';

/** A rider may be told by mail where their fit sheet can be read: by a link of its own, for a while. */
export class ToldFitSheets1764000023200 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(
      `ALTER TABLE fit_sheets
         ADD COLUMN tell_rider boolean NOT NULL DEFAULT false,
         ADD COLUMN link_hash bytea,
         ADD COLUMN link_expires_at timestamptz,
         ADD CONSTRAINT fit_sheets_rider_told_of_own CHECK (NOT tell_rider OR audience = 'rider'),
         ADD CONSTRAINT fit_sheets_link_whole CHECK ((link_hash IS NULL) = (link_expires_at IS NULL))`,
    );
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(
      'ALTER TABLE fit_sheets DROP COLUMN tell_rider, DROP COLUMN link_hash, DROP COLUMN link_expires_at',
    );
  }
}
