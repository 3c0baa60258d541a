import satisfies from 'spdx-satisfies';

/** Permissive licences: they ask for their notice and for nothing else. Names are SPDX's. */
const allowed = [
  '0BSD',
  'Apache-2.0',
  'BlueOak-1.0.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'CC0-1.0',
  'ISC',
  'MIT',
  'MIT-0',
  'Python-2.0',
  'Unlicense',
  'Zlib',
];

/** More that tools may have which are no part of what is run: changes to them would have to be given away, and are not made. */
const allowedInTools = [...allowed, 'CC-BY-3.0', 'CC-BY-4.0', 'MPL-2.0'];

/**
 * Looked at one by one, with what was found. A package that says something else one day is told of again.
 *
 * @type {readonly { name: RegExp, says: string, because: string }[]}
 */
const lookedAt = [
  {
    name: /^@img\/sharp-/,
    says: 'LGPL-3.0-or-later',
    because: 'libvips, loaded as a shared library of its own that anybody can replace',
  },
  {
    name: /^@img\/sharp-(win32|wasm32)/,
    says: 'Apache-2.0 AND LGPL-3.0-or-later',
    because: 'the same, in one package with its binding',
  },
  {
    name: /^@img\/sharp-wasm32$/,
    says: 'Apache-2.0 AND LGPL-3.0-or-later AND MIT',
    because: 'the same',
  },
  {
    name: /^@garmin\/fitsdk$/,
    says: 'SEE LICENSE IN LICENSE.txt',
    because: 'an agreement of its own, no open licence: read LICENSE.txt before it is handed to others',
  },
  {
    name: /^dejavu-fonts-ttf$/,
    says: 'SEE LICENSE IN README.md AND LICENSE',
    because: 'the Bitstream Vera licence: free to use and to embed, not to be sold by itself',
  },
  { name: /^(jstat|png-js)$/, says: 'none', because: 'its LICENSE is MIT, its package.json does not say so' },
  { name: /^nub$/, says: 'MIT/X11', because: 'MIT under an older name' },
];

/** @typedef {{ name: string, version: string, licence: string, runs: boolean, because: string | null, allowed: boolean }} Licensed */

/**
 * Every package of the lock file with its licence, those of other systems too.
 *
 * @param {{ packages: Record<string, { version?: string, license?: string, dev?: boolean, link?: boolean }> }} lock
 * @returns {Licensed[]}
 */
export function licencesOf(lock) {
  return Object.entries(lock.packages)
    .filter(([folder, { link }]) => folder.includes('node_modules/') && link !== true)
    .map(([folder, { version = '', license: licence = 'none', dev = false }]) => {
      const name = folder.slice(folder.lastIndexOf('node_modules/') + 'node_modules/'.length);
      const found = lookedAt.find((one) => one.name.test(name) && one.says === licence);
      return {
        ...{ name, version, licence, runs: !dev, because: found?.because ?? null },
        allowed: found !== undefined || isAllowed(licence, dev ? allowedInTools : allowed),
      };
    })
    .sort((one, other) => (one.name < other.name ? -1 : 1));
}

/**
 * @param {string} licence
 * @param {string[]} list
 */
function isAllowed(licence, list) {
  try {
    return satisfies(licence, list);
  } catch {
    // No SPDX expression.
    return false;
  }
}
