import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * Positions as versions of a stage, the newest standing; proposed beside found and left; every figure a fitter keeps,
 * each possibly not measured.
 */
export class PositionSnapshots1764000011000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    // What the older table has no place for is lost: stages proposed, versions that do not stand, figures not measured.
    await runner.query('ALTER TABLE positions DISABLE TRIGGER positions_kept_once_signed');
    await runner.query('ALTER TABLE positions NO FORCE ROW LEVEL SECURITY');
    await runner.query(
      `DELETE FROM positions WHERE stage = 'proposed' OR superseded_at IS NOT NULL
          OR num_nulls(${olderFigures.join(', ')}) > 0`,
    );
    await runner.query('ALTER TABLE positions FORCE ROW LEVEL SECURITY');
    await runner.query('ALTER TABLE positions ENABLE TRIGGER positions_kept_once_signed');
    await runner.query('DROP INDEX positions_one_standing');
    await runner.query(
      `ALTER TABLE positions
         DROP CONSTRAINT positions_once_per_version,
         DROP CONSTRAINT positions_taken_by_fkey,
         DROP CONSTRAINT positions_stage_known,
         ${[...newColumns].map((column) => `DROP COLUMN ${column.split(' ')[0] ?? ''}`).join(', ')},
         ${olderFigures.map((column) => `ALTER COLUMN ${column} SET NOT NULL`).join(', ')},
         ADD CONSTRAINT positions_stage_known CHECK (stage IN ('found', 'left')),
         ADD CONSTRAINT positions_once_per_stage UNIQUE (studio_id, fit_session_id, stage)`,
    );
  }
}

const olderFigures = [
  'saddle_height_mm',
  'saddle_setback_mm',
  'bar_drop_mm',
  'bar_reach_mm',
  'cleat_behind_mth1_left_mm',
  'cleat_behind_mth1_right_mm',
];

const figures = [
  'saddle_setback_at80_mm',
  'saddle_tilt_deg',
  'hood_reach_mm',
  'hood_drop_mm',
  'bar_tilt_deg',
  'bar_width_mm',
  'crank_length_mm',
  ...['left', 'right'].flatMap((side) => [
    `cleat_from_nose_${side}_mm`,
    `cleat_rotation_${side}_deg`,
    `cleat_outward_${side}_mm`,
    `shim_${side}_mm`,
  ]),
];

const newColumns = [
  ...figures.map((figure) => `${figure} double precision`),
  'hardware_left text[]',
  'hardware_right text[]',
  `methods jsonb NOT NULL DEFAULT '{}'`,
  'version integer NOT NULL DEFAULT 1',
  'superseded_at timestamptz',
  'taken_by uuid',
  'taken_at timestamptz NOT NULL DEFAULT app_now()',
  'device_id uuid',
];

const statements = [
  `ALTER TABLE positions
     ${newColumns.map((column) => `ADD COLUMN ${column}`).join(', ')},
     ${olderFigures.map((column) => `ALTER COLUMN ${column} DROP NOT NULL`).join(', ')},
     DROP CONSTRAINT positions_once_per_stage,
     DROP CONSTRAINT positions_stage_known,
     ADD CONSTRAINT positions_stage_known CHECK (stage IN ('found', 'proposed', 'left')),
     ADD CONSTRAINT positions_taken_by_fkey FOREIGN KEY (studio_id, taken_by) REFERENCES users,
     ADD CONSTRAINT positions_once_per_version UNIQUE (studio_id, fit_session_id, stage, version)`,
  `CREATE UNIQUE INDEX positions_one_standing ON positions (studio_id, fit_session_id, stage)
     WHERE superseded_at IS NULL`,
];
