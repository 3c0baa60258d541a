import { MoreThan, type EntityManager } from 'typeorm';
import { RecordSignature } from '../entities/record-signature.js';
import { readAmendments, readSessionContents, type Row, type SignedContent } from './content.queries.js';
import type { SignedErasure } from './erase-signed.js';
import { canonical, hashOfLink, sha256 } from './link.js';

/** Something that is not as it was signed. */
export interface BrokenRecord {
  /** The signature's number in the chain; null for a session that says it is signed and has no signature. */
  readonly number: number | null;
  /** Null for the signature of an erasure. */
  readonly fitSessionId: string | null;
  /** `chain`, `signature`, or the table of the part. */
  readonly part: string;
  /** The row of the part. */
  readonly recordId: string | null;
  readonly what: 'altered' | 'missing' | 'added';
  readonly fields: readonly string[];
}

export interface Verification {
  readonly signatures: number;
  /** The newest link. Kept elsewhere, it tells of a chain cut short at its end. */
  readonly head: { readonly number: number; readonly hash: string } | null;
  /** Sessions signed before there was a chain: nothing can be said of them. */
  readonly signedBeforeTheChain: number;
  /** Signatures whose content was erased, as a later one says. */
  readonly erased: number;
  readonly broken: readonly BrokenRecord[];
}

const atATime = 200;

/** Check a studio's whole chain: every link, and every row it covers against what was signed. */
export async function verifyRecords(tx: EntityManager, studioId: string): Promise<Verification> {
  const broken: BrokenRecord[] = [];
  let last: RecordSignature | null = null;
  let signatures = 0;
  /** Links without content that no later one has named yet. */
  const unexplained = new Map<number, RecordSignature>();
  let erased = 0;
  for (;;) {
    const links: RecordSignature[] = await tx.find(RecordSignature, {
      where: { studioId, number: MoreThan(last?.number ?? 0) },
      order: { number: 'ASC' },
      take: atATime,
    });
    const standing = await standingOf(tx, studioId, links);
    for (const link of links) {
      broken.push(...brokenLink(link, last), ...brokenContent(link, standing));
      if (link.content === null) unexplained.set(link.number, link);
      for (const { number, contentHash } of erasedBy(link)) {
        if (unexplained.get(number)?.contentHash !== contentHash) continue;
        unexplained.delete(number);
        erased += 1;
      }
      last = link;
      signatures += 1;
    }
    if (links.length < atATime) break;
  }
  for (const { number, fitSessionId, id } of unexplained.values()) {
    broken.push({
      ...{ number, fitSessionId, part: 'signature', recordId: id, what: 'missing', fields: ['content'] },
    });
  }
  const unsigned = await sessionsWithoutSignature(tx, studioId);
  broken.push(
    ...unsigned
      .filter(({ afterFirst }) => afterFirst)
      .map(({ id }) => ({
        ...{ number: null, fitSessionId: id, part: 'signature', recordId: null },
        ...{ what: 'missing' as const, fields: [] },
      })),
  );
  return {
    signatures,
    head: last && { number: last.number, hash: last.hash },
    signedBeforeTheChain: unsigned.filter(({ afterFirst }) => !afterFirst).length,
    erased,
    broken,
  };
}

function erasedBy({ kind, content }: RecordSignature): SignedErasure['erased'] {
  return kind === 'erasure' && content !== null ? (JSON.parse(content) as SignedErasure).erased : [];
}

function brokenLink(link: RecordSignature, before: RecordSignature | null): BrokenRecord[] {
  const at = { number: link.number, fitSessionId: link.fitSessionId, recordId: link.id };
  const found: BrokenRecord[] = [];
  if (link.number !== (before?.number ?? 0) + 1)
    found.push({ ...at, part: 'chain', what: 'missing', fields: [] });
  const altered = [
    ...(link.previousHash === (before?.hash ?? null) ? [] : ['previous_hash']),
    ...(link.content === null || link.contentHash === sha256(link.content) ? [] : ['content']),
    ...(link.hash === hashOfLink(link) ? [] : ['hash']),
  ];
  if (altered.length > 0) found.push({ ...at, part: 'signature', what: 'altered', fields: altered });
  return found;
}

interface Standing {
  readonly sessions: ReadonlyMap<string, SignedContent>;
  readonly amendments: ReadonlyMap<string, Row>;
}

/** What the links are of, as it stands now. */
async function standingOf(
  tx: EntityManager,
  studioId: string,
  links: readonly RecordSignature[],
): Promise<Standing> {
  const amendmentIds = links.flatMap(({ amendmentId }) => amendmentId ?? []);
  const fitSessionIds = links.flatMap((link) => (link.amendmentId === null && link.fitSessionId) || []);
  return {
    sessions: await readSessionContents(tx, { studioId, fitSessionIds }),
    amendments: await readAmendments(tx, { studioId, amendmentIds }),
  };
}

const nothing: SignedContent = { session: {}, parts: {} };
const there = (row: Row): readonly Row[] => ('id' in row ? [row] : []);

function brokenContent(link: RecordSignature, standing: Standing): BrokenRecord[] {
  const { number, fitSessionId, amendmentId, content } = link;
  if (fitSessionId === null) return [];
  const name = (part: string) => (difference: Difference) => ({ number, fitSessionId, part, ...difference });
  if (content === null) {
    // What was erased is gone whole: a row that is there again was not signed.
    if (amendmentId !== null) return [];
    const { session, parts } = standing.sessions.get(fitSessionId) ?? nothing;
    const left = { ...parts, fit_sessions: there(session) };
    return Object.entries(left).flatMap(([part, rows]) => differences([], rows).map(name(part)));
  }
  if (amendmentId !== null) {
    const now = there(standing.amendments.get(amendmentId) ?? {});
    return differences([JSON.parse(content) as Row], now).map(name('amendments'));
  }
  const signed = withNewNames(JSON.parse(content) as SignedContent);
  const now = standing.sessions.get(fitSessionId) ?? nothing;
  return [
    ...differences([signed.session], there(now.session)).map(name('fit_sessions')),
    // A table that came after the signature holds nothing of its session.
    ...[...new Set([...Object.keys(signed.parts), ...Object.keys(now.parts)])].flatMap((part) =>
      differences(signed.parts[part] ?? [], now.parts[part] ?? []).map(name(part)),
    ),
  ];
}

/** Tables that got another name since something in them was signed. */
const renamed: Readonly<Record<string, string>> = { cleat_plans: 'plans' };

const withNewNames = ({ session, parts }: SignedContent): SignedContent => ({
  session,
  parts: Object.fromEntries(Object.entries(parts).map(([table, rows]) => [renamed[table] ?? table, rows])),
});

type Difference = Pick<BrokenRecord, 'recordId' | 'what' | 'fields'>;

/** Only the columns that were signed: one added to the table later says nothing about the signature. */
function differences(signed: readonly Row[], now: readonly Row[]): Difference[] {
  const idOf = (row: Row): string => String(row['id']);
  const standing = new Map(now.map((row) => [idOf(row), row]));
  const found = signed.flatMap((row): Difference[] => {
    const recordId = idOf(row);
    const present = standing.get(recordId);
    standing.delete(recordId);
    if (!present) return [{ recordId, what: 'missing', fields: [] }];
    const fields = Object.keys(row).filter((field) => !isSame(row[field], present[field] ?? null));
    return fields.length === 0 ? [] : [{ recordId, what: 'altered', fields }];
  });
  const added = [...standing.keys()].map((recordId): Difference => ({ recordId, what: 'added', fields: [] }));
  return [...found, ...added];
}

const isSame = (one: unknown, other: unknown): boolean =>
  one === other || canonical(one) === canonical(other);

async function sessionsWithoutSignature(
  tx: EntityManager,
  studioId: string,
): Promise<{ id: string; afterFirst: boolean }[]> {
  return tx.query(
    `SELECT s.id,
            coalesce(s.signed_at >= (SELECT min(r.signed_at) FROM record_signatures r WHERE r.studio_id = $1), false)
              AS "afterFirst"
       FROM fit_sessions s
      WHERE s.studio_id = $1 AND s.signed_at IS NOT NULL
        AND NOT EXISTS (SELECT 1 FROM record_signatures r
                         WHERE r.studio_id = s.studio_id AND r.fit_session_id = s.id AND r.kind = 'session')
      ORDER BY s.id`,
    [studioId],
  );
}
