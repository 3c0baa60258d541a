import { MessageTextRow, type SqlRunner } from '@studio/database';
import type { MessageTemplateName } from '@studio/job-contracts';
import type { Language, OwnText } from '@studio/messages';
import type { EntityManager } from 'typeorm';

/** The studio's own texts in force. */
export function listOwnTexts(
  sql: SqlRunner,
  studioId: string,
): Promise<(OwnText & { template: MessageTemplateName })[]> {
  return sql.query<(OwnText & { template: MessageTemplateName })[]>(
    `SELECT template, language, version, subject, body FROM (
       SELECT DISTINCT ON (template, language) template, language, version, subject, body FROM message_texts
        WHERE studio_id = $1 ORDER BY template, language, version DESC) AS newest
      WHERE subject IS NOT NULL`,
    [studioId],
  );
}

/** The next version of a text; without words it restores the standard one. */
export async function insertText(
  tx: EntityManager,
  row: {
    studioId: string;
    template: MessageTemplateName;
    language: Language;
    subject: string | null;
    body: string | null;
    createdBy: string;
  },
): Promise<string> {
  const { studioId, template, language } = row;
  const newest = await tx.findOne(MessageTextRow, {
    where: { studioId, template, language },
    order: { version: 'DESC' },
  });
  const { identifiers } = await tx.insert(MessageTextRow, { ...row, version: (newest?.version ?? 0) + 1 });
  return (identifiers[0] as { id: string }).id;
}
