/** What a controller writes down of each thing it does with personal data (GDPR, article 30(1)). */
export interface ProcessingActivity {
  readonly name: string;
  readonly purpose: string;
  readonly legalBasis: string;
  readonly persons: string;
  readonly data: string;
  readonly recipients: string;
  readonly keptFor: string;
}

const untilErased = 'until the person asks for erasure, or the studio ends';
const healthRecord =
  'as long as the law of health records asks where it binds the studio; else until erasure is asked for';

/** Of this software as it is; a studio adds what it does beside it. */
export const processingActivities: readonly ProcessingActivity[] = [
  {
    name: 'Booking',
    purpose: 'Visits are booked, moved, reminded of and offered from a waiting list',
    legalBasis: 'Contract, article 6(1)(b); messages by consent, article 6(1)(a)',
    persons: 'Clients, their guardians',
    data: 'Name, mail address, phone, birth date, tags and notes, visits, wishes',
    recipients: 'The mail provider; calendar programs of the staff, as far as the studio allows names there',
    keptFor: untilErased,
  },
  {
    name: 'Screening and referral',
    purpose: 'Signs that a clinician should look first are noticed before and during a fit, and followed up',
    legalBasis: 'Explicit consent, article 9(2)(a)',
    persons: 'Clients',
    data: 'Answers about health, findings of rules, letters to clinicians and their answers, clearances',
    recipients: 'The clinician the person is referred to, by the person’s own hand',
    keptFor: healthRecord,
  },
  {
    name: 'Fitting',
    purpose: 'Bike and shoes are fitted, and what was found, changed and left is recorded and signed',
    legalBasis: 'Contract, article 6(1)(b); explicit consent, article 9(2)(a)',
    persons: 'Clients',
    data: 'Measurements of body, bike and shoes, photos, motion, complaints, changes and responses, signatures',
    recipients: 'None',
    keptFor: healthRecord,
  },
  {
    name: 'Follow-up and outcomes',
    purpose: 'Weeks later it is asked how it went; the studio learns from all outcomes together',
    legalBasis: 'Explicit consent, article 9(2)(a)',
    persons: 'Clients',
    data: 'Answers about pain, comfort, numbness and power; afterwards figures that lead to nobody',
    recipients: 'The mail provider, of the address and a link',
    keptFor: `${healthRecord}; figures without a person for good`,
  },
  {
    name: 'Accounts',
    purpose: 'Quotes, receipts, credit notes and payments',
    legalBasis: 'Contract, article 6(1)(b); legal duty, article 6(1)(c)',
    persons: 'Clients, buyers',
    data: 'Name, address and tax number of the buyer, what was sold, payments',
    recipients: 'Tax authority and accountant, by the studio’s own hand',
    keptFor: 'as long as the law of accounts asks',
  },
  {
    name: 'Rights of the person',
    purpose: 'Requests for a copy, correction, restriction and erasure are answered',
    legalBasis: 'Legal duty, article 6(1)(c) with articles 12 and 15 to 20',
    persons: 'Clients',
    data: 'What was asked, how the person was known, what was decided',
    recipients: 'None',
    keptFor: 'the fact and its dates for good, without the person once erased',
  },
  {
    name: 'Sign-in and audit',
    purpose: 'Only who may see a record does, and it can be told afterwards who did',
    legalBasis: 'Legal duty, article 6(1)(c) with articles 5(2) and 32',
    persons: 'Staff; clients as far as they used a link',
    data: 'Accounts of staff, sign-ins, network addresses, who read or changed which record',
    recipients: 'API clients the owner gave a key',
    keptFor: 'six years, a month at a time; accounts as long as the studio has them',
  },
];

/** How it is protected (article 30(1)(g), by way of article 32(1)). */
export const protection: readonly string[] = [
  'Each studio’s rows are kept apart by the database itself (row-level security).',
  'The front desk sees no medical text; every read of health data is written down.',
  'Second factors are sealed with a key of the studio’s own (AES-256-GCM), wrapped by a key that is not in the database.',
  'Signed records and the audit log are chained by hashes and can be checked.',
  'Queues hold ids only; links work once or for a short time.',
];
