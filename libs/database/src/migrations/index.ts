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
import { Outcomes1764000020000 } from './1764000020000-outcomes.js';

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
  Outcomes1764000020000,
];
