import type { SqlRunner } from '@studio/database';
import { adviceFor } from '@studio/fit-sheet';
import type { FitSessionResponse } from './fit-sessions.dto.js';
import type { AdviceResponse } from './sign-off.dto.js';
import { findLanguage } from './sign-off.queries.js';

type Session = Pick<FitSessionResponse, 'clientId' | 'advice' | 'positions'>;

/** As it was written for this rider, or as it is suggested now. */
export async function adviceOf(
  sql: SqlRunner,
  { studioId }: { studioId: string },
  session: Session,
): Promise<AdviceResponse> {
  if (session.advice) return session.advice;
  const language = await findLanguage(sql, { studioId, clientId: session.clientId });
  return { ...adviceFor(cleatChangesMm(session), language), writtenBy: null, version: 1 };
}

/** How far each foot's cleat was moved, rearward positive; without those not measured before and after. */
export function cleatChangesMm({ positions }: Pick<Session, 'positions'>): number[] {
  const at = (stage: 'found' | 'left') => positions.find((position) => position.stage === stage);
  return (['cleatBehindMth1LeftMm', 'cleatBehindMth1RightMm'] as const).flatMap((field) => {
    const [before, after] = [at('found')?.[field] ?? null, at('left')?.[field] ?? null];
    return before === null || after === null ? [] : [after - before];
  });
}
