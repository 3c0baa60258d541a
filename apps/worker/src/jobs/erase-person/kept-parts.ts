import type { Erasure } from '@studio/database';
import { countries, keepUntil, type CountryId, type KeptFor } from '@studio/retention';
import type { KeptFacts } from './erase-person.queries.js';

type Part = Pick<Erasure, 'category' | 'eraseOn' | 'keptByLaw'>;

/** Each part of a person's data with the day from which it is erased, and the law that asks for it to be kept till then. */
export function keptParts(facts: KeptFacts): Part[] {
  const { healthRecord, accounts } = countries[facts.country as CountryId];
  const { lastHealthEntryOn, lastAccountOn, bornOn, today, boundByHealthLaw } = facts;
  const part = (category: Part['category'], kept: KeptFor, last: string | null): Part =>
    last === null
      ? { category, eraseOn: today, keptByLaw: null }
      : { category, eraseOn: keepUntil(kept, last, bornOn), keptByLaw: kept.law };
  return [
    part('contact', healthRecord, null),
    part('health_record', healthRecord, boundByHealthLaw ? lastHealthEntryOn : null),
    part('accounts', accounts, lastAccountOn),
  ];
}
