import { Message, type MessageState, type SqlRunner, type Write, survivorOf } from '@studio/database';
import type { MessageTemplateName } from '@studio/job-contracts';
import type { Language, OwnText } from '@studio/messages';
import type { EntityManager } from 'typeorm';
import type { MessageKey } from './subjects/subject.js';

/** A message and all that decides whether, how and in which words it goes out. */
export interface MessageToSend {
  readonly template: MessageTemplateName;
  readonly clientId: string | null;
  readonly subjectId: string | null;
  readonly data: Record<string, string>;
  readonly state: MessageState;
  readonly attempts: number;
  readonly messageId: string | null;
  readonly notBefore: Date;
  readonly expiresAt: Date | null;
  /** Null when nobody is sending it; else how long ago somebody began to. */
  readonly sendingForSeconds: number | null;
  readonly hadItsTurn: boolean;
  readonly email: string | null;
  /** The client's address was refused for good. */
  readonly emailDead: boolean;
  readonly mayBeContacted: boolean;
  readonly givenName: string;
  readonly familyName: string;
  readonly language: string | null;
  readonly studioLanguage: Language;
  readonly studioName: string;
  readonly timeZone: string;
  readonly quietFrom: string | null;
  readonly quietUntil: string | null;
  readonly now: Date;
}

/** Locked, so that two workers with the same order come one after the other. */
export async function findMessageToSend(sql: SqlRunner, key: MessageKey): Promise<MessageToSend | null> {
  const rows = await sql.query<MessageToSend[]>(
    `SELECT m.template, m.client_id AS "clientId", m.subject_id AS "subjectId", m.data, m.state, m.attempts,
            m.message_id AS "messageId", m.not_before AS "notBefore", m.expires_at AS "expiresAt",
            extract(epoch FROM now() - m.sending_since)::float8 AS "sendingForSeconds",
            coalesce(m.turn_at <= now() + interval '2 s', false) AS "hadItsTurn",
            coalesce(c.email, u.email) AS email, coalesce(c.email = c.undeliverable_email, false) AS "emailDead",
            CASE WHEN u.id IS NOT NULL THEN u.disabled_at IS NULL
                 ELSE app_may_contact(m.studio_id, m.client_id) END AS "mayBeContacted",
            coalesce(c.given_name, '') AS "givenName", coalesce(c.family_name, '') AS "familyName", c.language,
            coalesce(settings.language, 'en') AS "studioLanguage",
            coalesce(settings.sender_name, s.name) AS "studioName", s.time_zone AS "timeZone",
            to_char(settings.quiet_from, 'HH24:MI') AS "quietFrom",
            to_char(settings.quiet_until, 'HH24:MI') AS "quietUntil", app_now() AS now
       FROM messages m
       JOIN studios s ON s.id = m.studio_id
       LEFT JOIN message_settings settings ON settings.studio_id = m.studio_id
       LEFT JOIN clients of ON of.studio_id = m.studio_id AND of.id = m.client_id
       LEFT JOIN clients c ON c.studio_id = of.studio_id AND c.id = ${survivorOf('of')}
       LEFT JOIN users u ON u.studio_id = m.studio_id AND u.id = m.user_id
      WHERE m.studio_id = $1 AND m.id = $2
        FOR UPDATE OF m`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}

/** The studio's own wordings in force, by language. */
export function listOwnTexts(
  sql: SqlRunner,
  { studioId, template }: { studioId: string; template: MessageTemplateName },
): Promise<OwnText[]> {
  return sql.query<OwnText[]>(
    `SELECT language, version, subject, body FROM (
       SELECT DISTINCT ON (language) language, version, subject, body FROM message_texts
        WHERE studio_id = $1 AND template = $2 ORDER BY language, version DESC) AS newest
      WHERE subject IS NOT NULL`,
    [studioId, template],
  );
}

/**
 * A turn at a mail domain: at most so many a minute, after a burst of a tenth of them. Each is given out once, to
 * whatever worker asks.
 *
 * @returns how long to wait for it, in milliseconds
 */
export async function takeTurn(sql: SqlRunner, domain: string, perMinute: number): Promise<number> {
  const [{ waitMs }] = await sql.query<[{ waitMs: number }]>(
    `INSERT INTO mail_pace (domain, next_at) VALUES ($1, now() - interval '6 s' + make_interval(secs => 60.0 / $2))
       ON CONFLICT (domain) DO UPDATE
         SET next_at = greatest(mail_pace.next_at, now() - interval '6 s') + make_interval(secs => 60.0 / $2)
     RETURNING extract(epoch FROM next_at - make_interval(secs => 60.0 / $2) - now())::float8 * 1000 AS "waitMs"`,
    [domain, perMinute],
  );
  return Math.max(0, waitMs);
}

export async function waitForTurn(
  tx: EntityManager,
  { studioId, id }: MessageKey,
  waitMs: number,
): Promise<void> {
  await tx.query(
    `UPDATE messages SET turn_at = now() + make_interval(secs => $3::float8 / 1000) WHERE studio_id = $1 AND id = $2`,
    [studioId, id, waitMs],
  );
}

export async function queueAgain(
  tx: EntityManager,
  { studioId, id }: MessageKey,
  { notBefore, lastError }: { notBefore: Date; lastError?: string },
): Promise<void> {
  await tx.update(
    Message,
    { studioId, id },
    {
      state: 'queued',
      sendingSince: null,
      notBefore,
      ...(lastError !== undefined && { lastError }),
    },
  );
}

type Words = Pick<Message, 'language' | 'textVersion' | 'subject' | 'body'>;

export async function keepWords(
  tx: EntityManager,
  { studioId, id }: MessageKey,
  { language, textVersion, subject, body }: Words,
): Promise<void> {
  await tx.update(Message, { studioId, id }, { language, textVersion, subject, body });
}

export async function markSending(
  tx: EntityManager,
  { studioId, id }: MessageKey,
  as: {
    messageId: string;
    address: string;
    language: Language;
    textVersion: string;
    subject: string;
    body: string;
    unsubscribeHash: Buffer | null;
  },
): Promise<void> {
  await tx.query(
    `UPDATE messages SET state = 'sending', attempts = attempts + 1, sending_since = now(), turn_at = NULL,
            message_id = $3, address = $4, language = $5, text_version = $6, subject = $7, body = $8,
            unsubscribe_hash = $9
      WHERE studio_id = $1 AND id = $2`,
    [
      ...[studioId, id, as.messageId, as.address, as.language, as.textVersion, as.subject, as.body],
      as.unsubscribeHash,
    ],
  );
}

interface End {
  readonly state: Exclude<MessageState, 'queued' | 'sending'>;
  readonly lastError?: string | null;
  readonly channel?: 'phone';
}

/** The end of a message; what links its order held are forgotten. */
export async function settle(tx: EntityManager, key: MessageKey, end: End): Promise<void> {
  const { text, values } = settled(key, end);
  await tx.query(text, [...values]);
}

export const settled = ({ studioId, id }: MessageKey, { state, lastError, channel }: End): Write => ({
  text: `UPDATE messages SET state = $3::text, last_error = $4, channel = coalesce($5, channel), sending_since = NULL,
                sent_at = CASE WHEN $3 = 'sent' THEN app_now() END, data = data - 'link'
          WHERE studio_id = $1 AND id = $2`,
  values: [studioId, id, state, lastError ?? null, channel ?? null],
});

/** Nothing more is mailed to that address of the client, until another is given or this one is cleared. */
export async function flagAddress(
  tx: EntityManager,
  { studioId, clientId, address }: { studioId: string; clientId: string; address: string },
): Promise<void> {
  await tx.query(
    `UPDATE clients SET undeliverable_email = email
      WHERE studio_id = $1 AND id IN (SELECT * FROM app_same_client($1, $2)) AND lower(email) = lower($3)`,
    [studioId, clientId, address],
  );
}
