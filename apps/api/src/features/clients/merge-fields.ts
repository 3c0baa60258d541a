import type { Client } from '@studio/database';

const mergedFields = [
  'email',
  'undeliverableEmail',
  'phone',
  'phoneE164',
  'bornOn',
  'language',
  'guardianId',
  'note',
  'tags',
  'doNotContact',
] as const;
export type MergedFields = Partial<Pick<Client, (typeof mergedFields)[number]>>;

/**
 * What the surviving record is completed by: what it lacks, the tags and notes of both, and do-not-contact if either
 * says so. Where both say something, its own stays; the other's is still there to be read under the merged record.
 */
export function fieldsMerged(
  surviving: Client,
  merged: Client,
): { before: MergedFields; after: MergedFields } {
  const both: Required<MergedFields> = {
    email: surviving.email ?? merged.email,
    undeliverableEmail: surviving.email === null ? merged.undeliverableEmail : surviving.undeliverableEmail,
    phone: surviving.phone ?? merged.phone,
    phoneE164: surviving.phone === null ? merged.phoneE164 : surviving.phoneE164,
    bornOn: surviving.bornOn ?? merged.bornOn,
    language: surviving.language ?? merged.language,
    guardianId: surviving.guardianId ?? merged.guardianId,
    note: [...new Set([surviving.note, merged.note])].filter((note) => note !== null).join('\n') || null,
    tags: [...new Set([...surviving.tags, ...merged.tags])],
    doNotContact: surviving.doNotContact || merged.doNotContact,
  };
  const changed = mergedFields.filter((field) => !same(both[field], surviving[field]));
  return { before: only(surviving, changed), after: only(both, changed) };
}

/** What undoing writes: as it was before, but what somebody changed since the merge stays as they left it. */
export function fieldsUnmerged(
  now: Client,
  { before, after }: { before: MergedFields; after: MergedFields },
): MergedFields {
  const untouched = mergedFields.filter((field) => field in after && same(now[field], after[field]));
  const restored = only(before, untouched);
  if (after.tags === undefined || untouched.includes('tags')) return restored;
  const broughtIn = new Set(after.tags.filter((tag) => !before.tags?.includes(tag)));
  return { ...restored, tags: now.tags.filter((tag) => !broughtIn.has(tag)) };
}

function only(from: MergedFields, fields: readonly (keyof MergedFields)[]): MergedFields {
  return Object.fromEntries(fields.map((field) => [field, from[field]]));
}

const same = (one: unknown, other: unknown): boolean => JSON.stringify(one) === JSON.stringify(other);
