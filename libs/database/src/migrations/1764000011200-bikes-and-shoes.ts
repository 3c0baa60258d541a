import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** What a bike and a shoe are made of, with the history of their parts; both change in versions and can be put away. */
export class BikesAndShoes1764000011200 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE shoe_hardware, bike_parts');
    await runner.query(
      `ALTER TABLE shoes DROP COLUMN foot_length_mm, DROP COLUMN size_system, DROP COLUMN size,
         DROP COLUMN bolt_line_from_heel_mm, DROP COLUMN sole_curve, DROP COLUMN sole_material, DROP COLUMN version,
         DROP COLUMN archived_at`,
    );
    await runner.query(
      `ALTER TABLE bikes DROP COLUMN kind, DROP COLUMN stack_mm, DROP COLUMN reach_mm, DROP COLUMN head_tube_angle_deg,
         DROP COLUMN contact_points, DROP COLUMN uses, DROP COLUMN version, DROP COLUMN archived_at`,
    );
  }
}

/** A part from when to when; while it is there, none of its kind is put beside it. */
const fittedPart = (table: string, owner: string, of: string, columns: string): string[] => [
  `CREATE TABLE ${table} (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     ${of}_id uuid NOT NULL,
     ${columns},
     valid_from timestamptz NOT NULL,
     valid_to timestamptz,
     fitted_by uuid NOT NULL,
     removed_by uuid,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT ${table}_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT ${table}_${of}_id_fkey FOREIGN KEY (studio_id, ${of}_id) REFERENCES ${owner},
     CONSTRAINT ${table}_fitted_by_fkey FOREIGN KEY (studio_id, fitted_by) REFERENCES users,
     CONSTRAINT ${table}_removed_by_fkey FOREIGN KEY (studio_id, removed_by) REFERENCES users,
     CONSTRAINT ${table}_removal_whole CHECK ((valid_to IS NULL) = (removed_by IS NULL)),
     CONSTRAINT ${table}_in_order CHECK (valid_from <= valid_to)
   )`,
  ...tenantTable(table),
];

const statements = [
  `ALTER TABLE bikes
     ADD COLUMN kind text NOT NULL DEFAULT 'other',
     ADD COLUMN stack_mm double precision,
     ADD COLUMN reach_mm double precision,
     ADD COLUMN head_tube_angle_deg double precision,
     ADD COLUMN contact_points jsonb,
     ADD COLUMN uses text[] NOT NULL DEFAULT '{}',
     ADD COLUMN version integer NOT NULL DEFAULT 1,
     ADD COLUMN archived_at timestamptz,
     ADD CONSTRAINT bikes_kind_known CHECK (kind IN ('road', 'gravel', 'cyclocross', 'time_trial', 'triathlon', 'track',
       'mountain', 'touring', 'city', 'recumbent', 'stationary', 'other')),
     ADD CONSTRAINT bikes_frame_whole CHECK (num_nulls(stack_mm, reach_mm, head_tube_angle_deg) IN (0, 3))`,
  ...fittedPart(
    'bike_parts',
    'bikes',
    'bike',
    `kind text NOT NULL CONSTRAINT bike_parts_kind_known
       CHECK (kind IN ('stem', 'spacers', 'seatpost', 'saddle', 'bars', 'cranks', 'pedals')),
     description text,
     facts jsonb NOT NULL`,
  ),
  `CREATE UNIQUE INDEX bike_parts_one_in_use ON bike_parts (studio_id, bike_id, kind) WHERE valid_to IS NULL`,
  `CREATE INDEX bike_parts_bike ON bike_parts (studio_id, bike_id)`,

  `ALTER TABLE shoes
     ADD COLUMN foot_length_mm double precision,
     ADD COLUMN size_system text,
     ADD COLUMN size double precision,
     ADD COLUMN bolt_line_from_heel_mm double precision,
     ADD COLUMN sole_curve text
       CONSTRAINT shoes_sole_curve_known CHECK (sole_curve IN ('flat', 'slight', 'strong')),
     ADD COLUMN sole_material text
       CONSTRAINT shoes_sole_material_known CHECK (sole_material IN ('carbon', 'plastic', 'composite', 'rubber', 'other')),
     ADD COLUMN version integer NOT NULL DEFAULT 1,
     ADD COLUMN archived_at timestamptz,
     ADD CONSTRAINT shoes_size_whole CHECK ((size_system IS NULL) = (size IS NULL)),
     ADD CONSTRAINT shoes_bolt_line_on_sole CHECK (
       0 < bolt_line_from_heel_mm AND bolt_line_from_heel_mm < outer_length_mm)`,
  ...fittedPart(
    'shoe_hardware',
    'shoes',
    'shoe',
    `side text NOT NULL CONSTRAINT shoe_hardware_side_known CHECK (side IN ('left', 'right')),
     kind text NOT NULL,
     note text`,
  ),
  `CREATE UNIQUE INDEX shoe_hardware_one_mounted ON shoe_hardware (studio_id, shoe_id, side, kind)
     WHERE valid_to IS NULL`,
  `CREATE INDEX shoe_hardware_shoe ON shoe_hardware (studio_id, shoe_id)`,
];
