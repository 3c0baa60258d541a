import { Foundations1764000000000 } from './1764000000000-foundations.js';
import { Desk1764000001000 } from './1764000001000-desk.js';
import { Screening1764000002000 } from './1764000002000-screening.js';
import { FitSessions1764000003000 } from './1764000003000-fit-sessions.js';
import { RelayPolicy1764000003500 } from './1764000003500-relay-policy.js';
import { IntakeAndReferrals1764000004000 } from './1764000004000-intake-and-referrals.js';
import { Catalogue1764000005000 } from './1764000005000-catalogue.js';
import { OpeningHours1764000006000 } from './1764000006000-opening-hours.js';
import { Appointments1764000007000 } from './1764000007000-appointments.js';
import { Clients1764000008000 } from './1764000008000-clients.js';
import { Tasks1764000009000 } from './1764000009000-tasks.js';
import { SameClient1764000009100 } from './1764000009100-same-client.js';
import { ClientImports1764000009200 } from './1764000009200-client-imports.js';
import { WaitingList1764000009300 } from './1764000009300-waiting-list.js';
import { Messages1764000010000 } from './1764000010000-messages.js';
import { CalendarFeeds1764000010100 } from './1764000010100-calendar-feeds.js';
import { PositionSnapshots1764000011000 } from './1764000011000-position-snapshots.js';
import { SessionFlow1764000011100 } from './1764000011100-session-flow.js';
import { BikesAndShoes1764000011200 } from './1764000011200-bikes-and-shoes.js';
import { Files1764000013000 } from './1764000013000-files.js';
import { FitSheets1764000013100 } from './1764000013100-fit-sheets.js';
import { MotionRecordings1764000013200 } from './1764000013200-motion-recordings.js';
import { FollowUpPlans1764000014000 } from './1764000014000-follow-up-plans.js';
import { FollowUpQuestions1764000014100 } from './1764000014100-follow-up-questions.js';
import { FairOutbox1764000015000 } from './1764000015000-fair-outbox.js';
import { WorkerHeartbeats1764000015100 } from './1764000015100-worker-heartbeats.js';
import { Webhooks1764000015200 } from './1764000015200-webhooks.js';
import { SigningIn1764000017000 } from './1764000017000-signing-in.js';
import { Accounts1764000018000 } from './1764000018000-accounts.js';
import { RecordSignatures1764000017100 } from './1764000017100-record-signatures.js';
import { Audit1764000017200 } from './1764000017200-audit.js';
import { Outcomes1764000020000 } from './1764000020000-outcomes.js';
import { Plans1764000020900 } from './1764000020900-plans.js';
import { ShoeWork1764000021000 } from './1764000021000-shoe-work.js';
import { SignOff1764000022000 } from './1764000022000-sign-off.js';
import { PairedPositions1764000022100 } from './1764000022100-paired-positions.js';
import { MoreOutcomes1764000023000 } from './1764000023000-more-outcomes.js';
import { RideRecordings1764000023100 } from './1764000023100-ride-recordings.js';
import { ToldFitSheets1764000023200 } from './1764000023200-told-fit-sheets.js';
import { Rights1764000025000 } from './1764000025000-rights.js';
import { Permissions1764000040000 } from './1764000040000-permissions.js';
import { AuditByMonth1764000050000 } from './1764000050000-audit-by-month.js';
import { DestroyedKeys1764000050100 } from './1764000050100-destroyed-keys.js';
import { OutboxTraces1764000060000 } from './1764000060000-outbox-traces.js';
import { IndexesForManyRows1764000070000 } from './1764000070000-indexes-for-many-rows.js';
import { OnePerson1764000070100 } from './1764000070100-one-person.js';
import { OnePersonOnly1764000070200 } from './1764000070200-one-person-only.js';
import { WeighedResults1764000070300 } from './1764000070300-weighed-results.js';
import { SoughtColumns1764000070400 } from './1764000070400-sought-columns.js';
import { SoughtIndexes1764000070500 } from './1764000070500-sought-indexes.js';

export const migrations = [
  Foundations1764000000000,
  Desk1764000001000,
  Screening1764000002000,
  FitSessions1764000003000,
  RelayPolicy1764000003500,
  IntakeAndReferrals1764000004000,
  Catalogue1764000005000,
  OpeningHours1764000006000,
  Appointments1764000007000,
  Clients1764000008000,
  Tasks1764000009000,
  SameClient1764000009100,
  ClientImports1764000009200,
  WaitingList1764000009300,
  Messages1764000010000,
  CalendarFeeds1764000010100,
  PositionSnapshots1764000011000,
  SessionFlow1764000011100,
  BikesAndShoes1764000011200,
  Files1764000013000,
  FitSheets1764000013100,
  MotionRecordings1764000013200,
  FollowUpPlans1764000014000,
  FollowUpQuestions1764000014100,
  FairOutbox1764000015000,
  WorkerHeartbeats1764000015100,
  Webhooks1764000015200,
  SigningIn1764000017000,
  Accounts1764000018000,
  RecordSignatures1764000017100,
  Audit1764000017200,
  Outcomes1764000020000,
  Plans1764000020900,
  ShoeWork1764000021000,
  SignOff1764000022000,
  PairedPositions1764000022100,
  MoreOutcomes1764000023000,
  RideRecordings1764000023100,
  ToldFitSheets1764000023200,
  Rights1764000025000,
  Permissions1764000040000,
  AuditByMonth1764000050000,
  DestroyedKeys1764000050100,
  OutboxTraces1764000060000,
  IndexesForManyRows1764000070000,
  OnePerson1764000070100,
  OnePersonOnly1764000070200,
  WeighedResults1764000070300,
  SoughtColumns1764000070400,
  SoughtIndexes1764000070500,
];
