import type { MessageTemplateName } from '@studio/job-contracts';
import type { SqlRunner } from './sql-runner.js';

export type MessageOrder = {
  readonly studioId: string;
  readonly template: MessageTemplateName;
  /** The record it is about: of what `about` of the template names, read anew when the message goes out. */
  readonly subjectId?: string;
  /**
   * Values of the template's placeholders that are known now: text, an instant (RFC 3339), a day (2026-03-02), an
   * address. No medical text: mail travels in the open.
   */
  readonly data?: Readonly<Record<string, string>>;
  /** Now when absent. Quiet hours and the pace of the mail server may make it later. */
  readonly notBefore?: Date;
  /** From then on it is not sent any more. */
  readonly expiresAt?: Date;
  readonly repeatsId?: string;
} & ({ readonly clientId: string } | { readonly userId: string });

/**
 * Order a message as part of this transaction: its row, and the outbox order that sends it when its time has come.
 * Whether the client may be written to, and by which channel, is decided at that moment.
 *
 * @returns the message's id
 */
export async function orderMessage(sql: SqlRunner, order: MessageOrder): Promise<string> {
  const [{ id }] = await sql.query<[{ id: string }]>(
    `WITH message AS (
       INSERT INTO messages (studio_id, client_id, user_id, template, subject_id, data, not_before, expires_at, repeats_id)
       VALUES ($1, $2, $3, $4, $5, $6, coalesce($7, app_now()), $8, $9) RETURNING studio_id, id, not_before),
     ordered AS (
       INSERT INTO outbox (studio_id, job, payload, available_at)
       SELECT studio_id, 'send-message', jsonb_build_object('messageId', id), not_before FROM message)
     SELECT id FROM message`,
    [
      order.studioId,
      'clientId' in order ? order.clientId : null,
      'userId' in order ? order.userId : null,
      order.template,
      order.subjectId ?? null,
      JSON.stringify(order.data ?? {}),
      order.notBefore ?? null,
      order.expiresAt ?? null,
      order.repeatsId ?? null,
    ],
  );
  return id;
}

/** Call off what is queued for a client, or about a record. What is being sent this moment cannot be called back. */
export async function cancelMessages(
  sql: SqlRunner,
  which: {
    studioId: string;
    clientId?: string;
    subjectId?: string;
    templates?: readonly MessageTemplateName[];
    because: string;
  },
): Promise<void> {
  if (which.clientId === undefined && which.subjectId === undefined) {
    throw new TypeError('whose messages, or about what?');
  }
  await sql.query(
    `UPDATE messages SET state = 'cancelled', last_error = $5, data = data - 'link'
      WHERE studio_id = $1 AND state = 'queued' AND ($2::uuid IS NULL OR client_id IN (SELECT * FROM app_same_client($1, $2)))
        AND ($3::uuid IS NULL OR subject_id = $3) AND ($4::text[] IS NULL OR template = ANY($4))`,
    [which.studioId, which.clientId ?? null, which.subjectId ?? null, which.templates ?? null, which.because],
  );
}
