import { Column, PrimaryColumn } from 'typeorm';

/** The two columns every tenant row begins with; `studio_id` leads every key. */
export abstract class TenantRow {
  @PrimaryColumn('uuid', { name: 'studio_id' })
  studioId: string;

  @PrimaryColumn('uuid', { default: () => 'uuidv7()' })
  id: string;
}

/** A tenant row that tells when it was written. */
export abstract class RecordedRow extends TenantRow {
  @Column('timestamptz', { name: 'created_at', default: () => 'app_now()' })
  createdAt: Date;
}

/** PostgreSQL's bigint reaches the driver as text; every one of ours is a safe whole number. */
export const safeInteger = {
  from: (value: string | null) => (value === null ? null : Number(value)),
  to: (value: number | null) => value,
};
