import { User } from '@studio/database';
import type { EntityManager } from 'typeorm';
import type { Person } from './person.js';

export async function setPassword(tx: EntityManager, person: Person, passwordHash: string): Promise<void> {
  await tx.update(User, { studioId: person.studioId, id: person.userId }, { passwordHash });
}

/** What an attacker would try for this person: names and addresses of theirs and of the studio. */
export async function ownWords(tx: EntityManager, { studioId, userId }: Person): Promise<string[]> {
  const rows: { words: string[] }[] = await tx.query(
    `SELECT ARRAY[u.email, u.display_name, s.name, h.handle] || string_to_array(u.display_name, ' ') AS words
       FROM users u JOIN studios s ON s.id = u.studio_id LEFT JOIN studio_handles h ON h.studio_id = u.studio_id
      WHERE u.studio_id = $1 AND u.id = $2`,
    [studioId, userId],
  );
  return rows.flatMap(({ words }) => words.filter(Boolean));
}
