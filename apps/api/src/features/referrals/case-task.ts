import { closeTask, openTask, type SqlRunner } from '@studio/database';

const kind = 'referral_overdue';

/** The fitters have to act on the case: at once where it is urgent, otherwise once its deadline has passed. */
export const openCaseTask = (
  sql: SqlRunner,
  of: { studioId: string; referralId: string; clientId: string; dueAt: Date },
): Promise<void> => {
  const { studioId, referralId: subjectId, clientId, dueAt } = of;
  return openTask(sql, { studioId, kind, role: 'fitter', clientId, subjectId, dueAt });
};

/** Somebody has answered, or nobody waits for an answer any more. */
export const closeCaseTask = (
  sql: SqlRunner,
  { studioId, referralId: subjectId }: { studioId: string; referralId: string },
): Promise<void> => closeTask(sql, { studioId, kind, subjectId });
