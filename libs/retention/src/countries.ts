/** How sure a period is. `memory`: no source was at hand; have it confirmed before relying on it. */
export type Strength = 'published' | 'second_hand' | 'memory';

export interface KeptFor {
  readonly years: number;
  /** Of somebody who was a minor at the last entry: not before the birthday at this age. */
  readonly untilAge?: number;
  /** Papers are kept from the end of the year they are of. */
  readonly from: 'last_entry' | 'end_of_year';
  readonly law: string;
  readonly source: string;
  readonly strength: Strength;
}

export interface CountryRules {
  readonly name: string;
  /** Health records, as the law of the place asks them to be kept by who is bound by it. */
  readonly healthRecord: KeptFor;
  readonly accounts: KeptFor;
}

const csp =
  'Chartered Society of Physiotherapy, https://www.csp.org.uk/frontline/article/how-do-i-know-how-long-keep-patient-records';
const memory = 'from memory';

const accounts = (years: number, law: string): KeptFor => ({
  ...{ years, from: 'end_of_year', law, source: memory, strength: 'memory' },
});

/**
 * How long records are kept, by country. Health-record law binds who gives health care, not every bike studio: whether it
 * binds a studio is for the studio to say, with advice.
 */
export const countries = {
  'GB-ENG': {
    name: 'England',
    healthRecord: {
      ...{ years: 8, untilAge: 25, from: 'last_entry' },
      law: 'Records Management Code of Practice for health and social care',
      source: `${csp}; children: from memory (25th birthday)`,
      strength: 'published',
    },
    accounts: accounts(6, 'Companies Act and tax law'),
  },
  'GB-SCT': {
    name: 'Scotland',
    healthRecord: {
      ...{ years: 6, untilAge: 25, from: 'last_entry' },
      law: 'Scottish Government Records Management: Health and Social Care Code of Practice',
      source: `${csp}; children: from memory (25th birthday)`,
      strength: 'published',
    },
    accounts: accounts(6, 'Companies Act and tax law'),
  },
  AU: {
    name: 'Australia',
    healthRecord: {
      ...{ years: 7, untilAge: 25, from: 'last_entry' },
      law: 'State health-records law',
      source: 'association page, https://events.homeopathyoz.org/client-records/',
      strength: 'second_hand',
    },
    accounts: accounts(5, 'Tax law'),
  },
  NL: {
    name: 'Netherlands',
    healthRecord: {
      ...{ years: 20, from: 'last_entry' },
      law: 'Wet op de geneeskundige behandelingsovereenkomst',
      source:
        'Autoriteit Persoonsgegevens, https://www.autoriteitpersoonsgegevens.nl/en/themes/health/health-data-in-a-record/retention-of-the-health-data-file',
      strength: 'published',
    },
    accounts: accounts(7, 'Tax law'),
  },
  DE: {
    name: 'Germany',
    healthRecord: {
      ...{ years: 10, from: 'last_entry', law: 'Bürgerliches Gesetzbuch § 630f' },
      ...{ source: memory, strength: 'memory' },
    },
    accounts: accounts(8, 'Abgabenordnung § 147'),
  },
  DK: {
    name: 'Denmark',
    healthRecord: {
      ...{ years: 10, from: 'last_entry', law: 'Journalføringsbekendtgørelsen' },
      ...{ source: memory, strength: 'memory' },
    },
    accounts: accounts(5, 'Bogføringsloven'),
  },
} as const satisfies Record<string, CountryRules>;

export type CountryId = keyof typeof countries;
export const countryIds = Object.keys(countries) as CountryId[];

/** The log of who read or changed what. No law met so far names a period for such a log itself. */
export const auditLog = {
  years: 6,
  law: 'House rule, after the six years that 45 CFR 164.316(b)(2) keeps the documentation of such safeguards',
  source: 'https://petronellatech.com/hipaa-compliance/hipaa-audit-controls/',
  strength: 'second_hand',
} as const satisfies Omit<KeptFor, 'from'>;
