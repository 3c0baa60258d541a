export { announce } from './announce.js';
export { auditEntry, recordAudit, type Audited } from './audit/audit-log.js';
export { dropAuditMonths, letAuditMonthsGo, prepareAuditMonths, sealAuditEntries } from './audit/seals.js';
export { verifyAudit, type AuditVerification } from './audit/verify-audit.js';
export { findClinicianMark, type StandingMark } from './clinician-marks.js';
export { createDataSource, entities } from './data-source.js';
export * from './entities/index.js';
export { entityMetadatas } from './entity-metadatas.js';
export { cancelMessages, orderMessage, type MessageOrder } from './messages.js';
export { SealBroken } from './field-seal.js';
export { migrate, UnknownMigrations } from './run-migrations.js';
export { finishOrder, orderFinished, orderJob } from './outbox.js';
export { forgetOnceKeys, OnceKeyReused } from './once.js';
export { postgresFailure, sqlState, tookTooLong, violates, type PostgresFailure } from './postgres-errors.js';
export type { OnceKey, TenantContext } from './tenant-context.js';
export { readClock, studioClock } from './studio-clock.js';
export { likelyClients } from './likely-clients.js';
export { sameClientIds, survivorOf } from './same-client.js';
export { takenWithin } from './taken-within.js';
export { closeTask, openTask } from './tasks.js';
export {
  destroyStudioKey,
  MasterKeyMissing,
  StudioKeyDestroyed,
  StudioKeys,
  type MasterKeys,
} from './studio-keys.js';
export { isSealed, opened, sealed, sealedJson } from './sealed-fields/sealed-fields.js';
export { offerFreedTime } from './waiting-list.js';
export { eraseSigned } from './record-signatures/erase-signed.js';
export { exportedTables, personExportSchema, type ExportedTable } from './person/exported-tables.js';
export { lastOfPerson, personTables, type PersonTable } from './person/person-tables.js';
export { ReplicaReads } from './replica-reads.js';
export { signRecord } from './record-signatures/sign-record.js';
export { verifyRecords, type BrokenRecord, type Verification } from './record-signatures/verify-records.js';
export { TenantReads } from './tenant-reads.js';
export type { SqlRunner } from './sql-runner.js';
export { together } from './together.js';
export { TenantTransaction } from './tenant-transaction.js';
export type { Write } from './write-at-once.js';
export { utcText } from './utc-text.js';
export { whenGiven } from './when-given.js';
export {
  hashesEqual,
  newSecret,
  readTenantToken,
  secretHash,
  tenantToken,
  type TenantToken,
} from './tenant-token.js';
