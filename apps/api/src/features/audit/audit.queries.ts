import { whenGiven, type SqlRunner } from '@studio/database';
import type { AuditEntryResponse, ListAuditEntriesQuery } from './audit.dto.js';

export async function listAuditEntries(
  sql: SqlRunner,
  query: ListAuditEntriesQuery & { studioId: string; limit: number },
): Promise<AuditEntryResponse[]> {
  const { studioId, after, recordId, userId, action, from, until, limit } = query;
  return sql.query(
    `SELECT a.id, a.created_at AS "createdAt", a.user_id AS "userId", u.display_name AS "userName",
            a.request_id AS "requestId", a.from_address AS "fromAddress", a.action, a.record_id AS "recordId", a.fields,
            encode(a.before_hash, 'hex') AS "beforeHash", encode(a.after_hash, 'hex') AS "afterHash",
            a.sealed_in IS NOT NULL AS sealed
       FROM audit_entries a
       LEFT JOIN users u ON u.studio_id = a.studio_id AND u.id = a.user_id
      WHERE a.studio_id = $1
        AND ${whenGiven(after, '$2::uuid', 'a.id < $2')}
        AND ${whenGiven(recordId, '$3::uuid', 'a.record_id = $3')}
        AND ${whenGiven(userId, '$4::uuid', 'a.user_id = $4')}
        AND ${whenGiven(action, '$5::text', 'starts_with(a.action, $5)')}
        AND ${whenGiven(from, '$6::timestamptz', 'a.created_at >= $6')}
        AND ${whenGiven(until, '$7::timestamptz', 'a.created_at < $7')}
      ORDER BY a.id DESC LIMIT $8`,
    [
      studioId,
      after ?? null,
      recordId ?? null,
      userId ?? null,
      action ?? null,
      from ?? null,
      until ?? null,
      limit,
    ],
  );
}
