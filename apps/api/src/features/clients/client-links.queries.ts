import {
  ClientLink,
  clientLinkKinds,
  type ClientLinkKind,
  type SqlRunner,
  survivorOf,
} from '@studio/database';
import type { EntityManager } from 'typeorm';
import type { ClientLinkResponse } from './client-links.dto.js';

/** Written down once for both; where one was merged, the surviving record stands for it. */
export async function listLinks(
  sql: SqlRunner,
  of: { studioId: string; clientId: string },
): Promise<ClientLinkResponse[]> {
  const rows = await sql.query<(ClientLinkResponse & { turned: boolean })[]>(
    `WITH same AS (SELECT id FROM app_same_client($1, $2) AS same (id)),
          sides AS (
            SELECT id, kind, other_id AS other, false AS turned FROM client_links
             WHERE studio_id = $1 AND client_id IN (SELECT id FROM same)
            UNION ALL
            SELECT id, kind, client_id, true FROM client_links
             WHERE studio_id = $1 AND other_id IN (SELECT id FROM same))
     SELECT s.id, s.kind, s.turned, survivor.id AS "otherClientId",
            survivor.given_name || ' ' || survivor.family_name AS "otherName"
       FROM sides s
       JOIN clients c ON c.studio_id = $1 AND c.id = s.other
       JOIN clients survivor ON survivor.studio_id = $1 AND survivor.id = ${survivorOf('c')}
      WHERE s.other NOT IN (SELECT id FROM same)
      ORDER BY s.id`,
    [of.studioId, of.clientId],
  );
  return rows.map(({ turned, kind, ...link }) => ({ ...link, kind: turned ? clientLinkKinds[kind] : kind }));
}

export async function insertLink(
  tx: EntityManager,
  link: { studioId: string; clientId: string; otherId: string; kind: ClientLinkKind; linkedBy: string },
): Promise<string> {
  const { studioId, clientId, otherId, kind, linkedBy } = link;
  const { identifiers } = await tx.insert(
    ClientLink,
    clientId < otherId
      ? { studioId, linkedBy, clientId, otherId, kind }
      : { studioId, linkedBy, clientId: otherId, otherId: clientId, kind: clientLinkKinds[kind] },
  );
  return (identifiers[0] as { id: string }).id;
}

export async function deleteLink(tx: EntityManager, key: { studioId: string; id: string }): Promise<boolean> {
  const { affected } = await tx.delete(ClientLink, key);
  return affected === 1;
}
