const uuid = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;
const segment = /^[a-z0-9][a-z0-9-]*(\.[a-z0-9]+)*$/;

/**
 * The key of an object: its studio leads, as in every key of the database.
 *
 * @param studioId UUID in lower case
 * @param rest lower case letters, digits and dashes, with endings; ids, never names of people
 * @throws RangeError for anything else, so that no key can lead out of its studio
 * @example storageKey('0199d0c2-7c4e-7e57-8f4f-3f1f7a0c9b11', 'files', '7', 'thumbnail.webp');
 */
export function storageKey(studioId: string, ...rest: readonly string[]): string {
  return checkedKey([studioId, ...rest].join('/'));
}

/** @throws RangeError when the key is not one `storageKey` makes */
export function checkedKey(key: string): string {
  const [studioId = '', ...rest] = key.split('/');
  if (!uuid.test(studioId) || rest.length === 0 || !rest.every((part) => segment.test(part))) {
    throw new RangeError('not a storage key');
  }
  return key;
}
