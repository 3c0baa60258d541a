import { Message, type MessageState, type SqlRunner, whenGiven } from '@studio/database';
import type { MessageTemplateName } from '@studio/job-contracts';
import type { EntityManager } from 'typeorm';
import type { MessageResponse } from './messages.dto.js';

const utc = (column: string): string =>
  `to_char(${column} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

const columns = `id, client_id AS "clientId", template, subject_id AS "subjectId", state, channel,
  ${utc('not_before')} AS "notBefore", ${utc('expires_at')} AS "expiresAt", attempts, last_error AS "lastError", address,
  language, text_version AS "textVersion", subject, body AS text, ${utc('sent_at')} AS "sentAt",
  ${utc('bounced_at')} AS "bouncedAt", repeats_id AS "repeatsId", ${utc('created_at')} AS "createdAt"`;

interface Key {
  readonly studioId: string;
  readonly id: string;
}

export async function findMessage(sql: SqlRunner, key: Key): Promise<MessageResponse | null> {
  const rows = await sql.query<MessageResponse[]>(
    `SELECT ${columns} FROM messages WHERE studio_id = $1 AND id = $2`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}

export function listMessages(
  sql: SqlRunner,
  page: {
    studioId: string;
    clientId: string | null;
    subjectId: string | null;
    state: MessageState | null;
    template: MessageTemplateName | null;
    after: string | null;
    limit: number;
  },
): Promise<MessageResponse[]> {
  const { studioId, clientId, subjectId, state, template, after, limit } = page;
  return sql.query<MessageResponse[]>(
    `SELECT ${columns} FROM messages
      WHERE studio_id = $1 AND ${whenGiven(clientId, '$2::uuid', 'client_id IN (SELECT * FROM app_same_client($1, $2))')}
        AND ${whenGiven(subjectId, '$3::uuid', 'subject_id = $3')}
        AND ${whenGiven(state, '$4::text', 'state = $4')} AND ${whenGiven(template, '$5::text', 'template = $5')}
        AND ${whenGiven(after, '$6::uuid', 'id > $6')}
      ORDER BY id LIMIT $7`,
    [studioId, clientId, subjectId, state, template, after, limit],
  );
}

/** What was ordered. Locked: while it is being sent, its state is the worker's. */
export function findOrder(tx: EntityManager, key: Key): Promise<Message | null> {
  return tx.findOne(Message, { where: key, lock: { mode: 'pessimistic_write' } });
}

export async function markCancelled(
  tx: EntityManager,
  { studioId, id }: Key,
  because: string,
): Promise<void> {
  await tx.query(
    `UPDATE messages SET state = 'cancelled', last_error = $3, data = data - 'link' WHERE studio_id = $1 AND id = $2`,
    [studioId, id, because],
  );
}

/** The address may be mailed to again. */
export async function clearAddress(
  tx: EntityManager,
  { studioId, clientId }: { studioId: string; clientId: string },
): Promise<void> {
  await tx.query(`UPDATE clients SET undeliverable_email = NULL WHERE studio_id = $1 AND id = $2`, [
    studioId,
    clientId,
  ]);
}
