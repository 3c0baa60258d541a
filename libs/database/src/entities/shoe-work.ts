import { Column, Entity } from 'typeorm';
import { RecordedRow, TenantRow } from './columns.js';

/** The library `shoe-work` says what may follow what. */
export type ShoeWorkState =
  | 'opened'
  | 'consented'
  | 'in_work'
  | 'curing'
  | 'to_collect'
  | 'collected'
  | 'done'
  | 'abandoned';

/** Work on a pair of shoes that cannot be undone: one case. */
@Entity('shoe_works')
export class ShoeWork extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  /** The fit it comes from. */
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  @Column('uuid', { name: 'shoe_id' })
  shoeId: string;

  /** The visit it is done in, whose time on a bench is its own. */
  @Column('uuid', { name: 'appointment_id', nullable: true })
  appointmentId: string | null;

  /** A way of fit-math's `cleatWays`. */
  @Column('text')
  way: string;

  @Column('text')
  fixing: 'drilled' | 'bonded' | 'drilled_and_bonded';

  /** What the shoe was when it was judged. */
  @Column('jsonb', { name: 'shoe_facts' })
  shoeFacts: object;

  /** The version of the steps it goes by. */
  @Column('text', { name: 'procedure_version' })
  procedureVersion: string;

  /** `curing` whose time has come counts as `to_collect`, without anybody writing it down. */
  @Column('text', { default: 'opened' })
  state: ShoeWorkState;

  @Column('uuid', { name: 'opened_by' })
  openedBy: string;

  /** When a sole was first changed for good, and who did it. */
  @Column('timestamptz', { name: 'begun_at', nullable: true })
  begunAt: Date | null;

  @Column('uuid', { name: 'begun_by', nullable: true })
  begunBy: string | null;

  /** Null while it cures elsewhere, or nothing does. */
  @Column('uuid', { name: 'bench_id', nullable: true })
  benchId: string | null;

  @Column('tstzrange', { nullable: true })
  curing: string | null;

  /** Where the time to cure was taken from. */
  @Column('text', { name: 'cure_source', nullable: true })
  cureSource: string | null;

  /** From when nothing cures any more and the rider may come. */
  @Column('timestamptz', { name: 'to_collect_at', nullable: true })
  toCollectAt: Date | null;

  @Column('integer', { default: 1 })
  version: number;
}

/** What the client signed before anything was cut: who, to which wording, when, taken by whom. */
@Entity('shoe_work_consents')
export class ShoeWorkConsent extends RecordedRow {
  @Column('uuid', { name: 'shoe_work_id' })
  shoeWorkId: string;

  @Column('text', { name: 'text_version' })
  textVersion: string;

  @Column('text')
  language: 'en' | 'de';

  /** As signed. */
  @Column('text', { name: 'signed_name' })
  signedName: string;

  /** The guardian who signs for a minor. */
  @Column('uuid', { name: 'guardian_id', nullable: true })
  guardianId: string | null;

  @Column('uuid', { name: 'taken_by' })
  takenBy: string;
}

/** One step on one shoe of the pair. */
@Entity('shoe_work_steps')
export class ShoeWorkStep extends RecordedRow {
  @Column('uuid', { name: 'shoe_work_id' })
  shoeWorkId: string;

  @Column('text')
  step: string;

  @Column('text')
  shoe: 'left' | 'right';

  @Column('jsonb')
  values: object;

  @Column('uuid', { name: 'done_by' })
  doneBy: string;
}

@Entity('shoe_work_photos')
export class ShoeWorkPhoto extends TenantRow {
  @Column('uuid', { name: 'step_id' })
  stepId: string;

  @Column('uuid', { name: 'file_id' })
  fileId: string;
}

/** A part of the price list that was used. */
@Entity('shoe_work_parts')
export class ShoeWorkPart extends RecordedRow {
  @Column('uuid', { name: 'shoe_work_id' })
  shoeWorkId: string;

  @Column('uuid', { name: 'part_id' })
  partId: string;

  @Column('integer')
  quantity: number;

  @Column('uuid', { name: 'recorded_by' })
  recordedBy: string;
}

/** One step of a case's way through its states. */
@Entity('shoe_work_changes')
export class ShoeWorkChange extends RecordedRow {
  @Column('uuid', { name: 'shoe_work_id' })
  shoeWorkId: string;

  @Column('text')
  state: ShoeWorkState;

  /** Why it was abandoned. */
  @Column('text', { nullable: true })
  reason: string | null;

  @Column('uuid', { name: 'changed_by' })
  changedBy: string;
}

/** When something cures on a bench. Written by triggers of visits and cases; the row's id is theirs. */
@Entity('bench_times')
export class BenchTime extends TenantRow {
  @Column('uuid', { name: 'bench_id' })
  benchId: string;

  @Column('tstzrange')
  during: string;

  /** What belongs to one visit may lie on its bench together. */
  @Column('uuid', { name: 'visit_id' })
  visitId: string;
}
