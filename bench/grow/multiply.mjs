// A studio's rows again and again: for more visits, more clients and more studios, written by COPY.
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import copyStreams from 'pg-copy-streams';
import { seeded } from '../seeded.mjs';
import { familyName, givenName } from './invented-names.mjs';
import { uuids } from './model-rows.mjs';

/** Where the number of the studio goes, three hexadecimal digits. */
const mark = '\u0001';
const dayMs = 86_400_000;
const dates = /\d{4}-\d{2}-\d{2}/g;
/** Numbers of the model are below it. */
const numbersApart = 10_000;

/**
 * @typedef {import('./model-rows.mjs').Model} Model
 * @typedef {import('./model-rows.mjs').ModelTable} ModelTable
 * @typedef {import('./model-rows.mjs').ModelRow} ModelRow
 * @typedef {{ seed: number, visits: number, daysApart: number, firstDay: number }} Spread each client comes so often;
 *   visits lie so many days apart, the first so many after the model's
 */

/**
 * The rows of other studios that are there once in each: numbers 1 to `studios - 1`, the model being 0.
 *
 * @param {import('pg').Client} admin
 * @param {Model} model
 * @param {number} studios
 */
export async function copyStudios(admin, model, studios) {
  const spread = { seed: 0, visits: 1, daysApart: 0, firstDay: 0 };
  const others = numbers(1, studios);
  for (const table of model.tables) {
    const rows = table.rows.filter(({ level }) => level === 0);
    await copyIn(admin, table, [spell(model, table, rows, { own: false, visit: 0, spread })], others);
  }
}

/**
 * More of every client of the model, in every studio, with all visits. In one transaction with whatever else the caller has
 * in it.
 *
 * @param {import('pg').Client} admin
 * @param {Model} model
 * @param {{ from: number, until: number, studios: number, spread: Spread }} options copies of these numbers; number 0 of the
 *   model's own studio is the model itself
 * @returns {Promise<number>} rows written
 */
export async function copyClients(admin, model, { from, until, studios, spread }) {
  const turns = numbers(from * spread.visits, until * spread.visits);
  let written = 0;
  for (const table of model.tables) {
    /** @param {boolean} own */
    const blocks = (own) =>
      turns.map((visit) => {
        const isModel = own && visit === 0;
        const isFirst = visit % spread.visits === 0;
        const rows = table.rows.filter(({ level }) => !isModel && (level === 2 || (level === 1 && isFirst)));
        written += rows.length * (own ? 1 : studios - 1);
        return spell(model, table, rows, { own, visit, spread });
      });
    await copyIn(admin, table, blocks(true), [0]);
    await copyIn(admin, table, blocks(false), numbers(1, studios));
  }
  return written;
}

/** @param {number} from @param {number} to @returns {number[]} */
const numbers = (from, to) => Array.from({ length: to - from }, (_, at) => from + at);

/** @param {number} value @param {number} digits */
const hex = (value, digits) => value.toString(16).padStart(digits, '0');

/**
 * Rows as they are in one copy of any studio, as lines for COPY.
 *
 * @param {Model} model
 * @param {ModelTable} table
 * @param {readonly ModelRow[]} rows
 * @param {{ own: boolean, visit: number, spread: Spread }} copy `own`: in the model's studio, whose own rows stay as
 *   they are
 */
function spell(model, { name, columns, dated, numbered }, rows, { own, visit, spread }) {
  /** @param {number} level */
  const copyOf = (level) => (level === 2 ? visit : level === 1 ? visit - (visit % spread.visits) : 0);
  /** @param {number} at */
  const daysOf = (at) => spread.firstDay + at * spread.daysApart;
  /** @param {string} id */
  const spellId = (id) => {
    const known = model.ids[id];
    if (!known) return id;
    const at = copyOf(known.level);
    if (own && at === 0) return id;
    const time = Number.parseInt(id.slice(0, 8) + id.slice(9, 13), 16);
    const later = hex(known.level === 0 ? time : time + daysOf(at) * dayMs, 12);
    return `${later.slice(0, 8)}-${later.slice(8)}-7000-8${mark}-${hex(at, 5)}${hex(known.order, 7)}`;
  };
  let lines = '';
  for (const [index, { level, cells }] of rows.entries()) {
    const at = copyOf(level);
    const random = seeded(Math.imul(spread.seed + 1, 0x9e3779b1) ^ Math.imul(at + 1, 0x85ebca6b) ^ index);
    /** @param {string} day */
    const later = (day) => new Date(Date.parse(day) + daysOf(at) * dayMs).toISOString().slice(0, 10);
    /** @type {Readonly<Record<string, () => string>>} */
    const varied = {
      'clients.given_name': () => givenName(random),
      'clients.family_name': () => familyName(random),
      'clients.email': () => `rider-${at}-${index}@riders.example`,
      'studio_handles.handle': () => `studio-${mark}`,
      // Counted on from others, it is nobody's first.
      'record_signatures.previous_hash': () => (level === 0 ? '\\N' : (cells[columns.indexOf('hash')] ?? '')),
    };
    const spelled = cells.map((cell, column) => {
      const vary = varied[`${name}.${columns[column] ?? ''}`];
      if (vary) return vary();
      if (cell === '\\N') return cell;
      if (level > 0 && numbered[column]) return String(Number(cell) + (at + 1) * numbersApart);
      if (level > 0 && dated[column]) return cell.replace(dates, later);
      return cell.replace(uuids, spellId);
    });
    lines += `${spelled.join('\t')}\n`;
  }
  return lines;
}

/**
 * @param {import('pg').Client} admin
 * @param {ModelTable} table
 * @param {readonly string[]} blocks
 * @param {readonly number[]} studios
 */
async function copyIn(admin, { name, columns }, blocks, studios) {
  if (studios.length === 0 || blocks.every((block) => block === '')) return;
  const lines = function* () {
    // As time would have it: the studios' rows lie between one another.
    for (const block of blocks) {
      const parts = block.split(mark);
      for (const studio of studios) if (block !== '') yield parts.join(hex(studio, 3));
    }
  };
  await pipeline(
    Readable.from(lines()),
    admin.query(copyStreams.from(`COPY ${name} (${columns.join(', ')}) FROM STDIN`)),
  );
}
