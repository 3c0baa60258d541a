import { cancelMessages, closeTask, type SqlRunner } from '@studio/database';

/** Nobody waits for the shoes any more: the desk's task and the message that they can be collected go. */
export async function settle(
  sql: SqlRunner,
  { studioId, id: subjectId }: { studioId: string; id: string },
  because: string,
): Promise<void> {
  await cancelMessages(sql, { studioId, subjectId, because });
  await closeTask(sql, { studioId, kind: 'shoe_work_to_collect', subjectId });
}
