import type { PersonCategory, RightsRequest } from '@studio/database';

/** A part of a person's data that an erasure speaks of. */
export interface ErasedPart {
  readonly category: PersonCategory;
  /** Null when no law asks for it to be kept. */
  readonly keptByLaw: string | null;
  readonly eraseOn: string;
  readonly erased: boolean;
}

export const holds: Readonly<Record<PersonCategory, string>> = {
  contact: 'how to reach you, messages, notes, waiting list, answers that were not handed in',
  health_record: 'screenings, referrals, visits with measurements, photos and follow-ups, bikes and shoes',
  accounts: 'quotes, receipts and payments made out to you',
};

/** What stays beyond every erasure, and says nothing of the person. */
const staysForGood = [
  'The log of who read or changed which record stays: it names records by numbers that lead nowhere any more (GDPR, articles 5(2) and 32).',
  'Outcomes stay as figures for a month, without anything that leads to you (recital 26).',
];

/** What the studio can tell the person, sentence by sentence. */
export function answerText(request: RightsRequest, parts: readonly ErasedPart[]): string[] {
  const { kind, state, decision, dueOn, extendedBecause } = request;
  if (state === 'refused') {
    return [
      `We do not do what you asked: ${decision ?? ''}`,
      'You may complain to the data protection authority, or go to court (GDPR, article 12(4)).',
    ];
  }
  if (state === 'received' || state === 'identity_checked') {
    const why = extendedBecause === null ? '' : ` It takes longer because: ${extendedBecause}`;
    return [`We will answer by ${dueOn}.${why}`];
  }
  switch (kind) {
    case 'access':
      return ['You have been given a copy of everything we keep about you.'];
    case 'correction':
      return ['We corrected what we keep about you.', ...(decision === null ? [] : [decision])];
    case 'restriction':
      return [
        'Your record is only kept: nothing is sent to you, counted or added.',
        'We will tell you before that ends.',
      ];
    case 'erasure':
      return [...parts.map(ofPart), ...staysForGood];
  }
}

function ofPart({ category, keptByLaw, eraseOn, erased }: ErasedPart): string {
  if (erased) return `Erased: ${holds[category]}.`;
  if (keptByLaw === null) return `Being erased: ${holds[category]}.`;
  return `Kept until ${eraseOn}, and only kept: ${holds[category]}; with your name and birth date. The law asks for it: ${keptByLaw} (GDPR, article 17(3)(b)). It is erased then without being asked.`;
}
