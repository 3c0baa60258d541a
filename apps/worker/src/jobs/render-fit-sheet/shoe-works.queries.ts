import { ShoeWorkStep, type ShoeWork, type SqlRunner } from '@studio/database';
import type { FitSheetFacts } from '@studio/fit-sheet';
import type { EntityManager } from 'typeorm';

type Row = Pick<ShoeWork, 'id' | 'way' | 'fixing' | 'state' | 'begunAt'> & {
  readonly shoe: string;
  readonly curesUntil: Date | null;
  readonly signedName: string | null;
  readonly signedAt: Date;
  readonly textVersion: string;
  readonly abandonedBecause: string | null;
};

function listShoeWorks(sql: SqlRunner, of: { studioId: string; fitSessionId: string }): Promise<Row[]> {
  return sql.query<Row[]>(
    `SELECT w.id, w.way, w.fixing, w.begun_at AS "begunAt", s.name AS shoe, upper(w.curing) AS "curesUntil",
            CASE WHEN w.state = 'curing' AND w.to_collect_at <= app_now() THEN 'to_collect' ELSE w.state END AS state,
            c.signed_name AS "signedName", c.created_at AS "signedAt", c.text_version AS "textVersion",
            (SELECT k.reason FROM shoe_work_changes k
              WHERE k.studio_id = w.studio_id AND k.shoe_work_id = w.id AND k.state = 'abandoned') AS "abandonedBecause"
       FROM shoe_works w
       JOIN shoes s ON s.studio_id = w.studio_id AND s.id = w.shoe_id
       LEFT JOIN shoe_work_consents c ON c.studio_id = w.studio_id AND c.shoe_work_id = w.id
      WHERE w.studio_id = $1 AND w.fit_session_id = $2 ORDER BY w.id`,
    [of.studioId, of.fitSessionId],
  );
}

/** Every case of a session. */
export async function findShoeWorks(
  tx: EntityManager,
  of: { studioId: string; fitSessionId: string },
  day: (instant: Date) => string,
): Promise<FitSheetFacts['shoeWorks']> {
  const { studioId } = of;
  const found: FitSheetFacts['shoeWorks'][number][] = [];
  for (const row of await listShoeWorks(tx, of)) {
    const steps = await tx.findBy(ShoeWorkStep, { studioId, shoeWorkId: row.id });
    const torque = (shoe: 'left' | 'right', step: string): number | null => {
      const done = steps.find((item) => item.shoe === shoe && item.step === step);
      const { torqueNm }: { torqueNm?: number } = done?.values ?? {};
      return torqueNm ?? null;
    };
    const torques = (shoe: 'left' | 'right') => ({
      first: torque(shoe, 'torqued'),
      again: torque(shoe, 'torqued_again'),
    });
    const { shoe, way, fixing, state, begunAt, curesUntil, signedName, signedAt, textVersion } = row;
    found.push({
      ...{ shoe, way, fixing, state, abandonedBecause: row.abandonedBecause },
      consent: signedName === null ? null : { signedName, on: day(signedAt), textVersion },
      begunOn: begunAt && day(begunAt),
      curesUntil: curesUntil && day(curesUntil),
      torqueNm: { left: torques('left'), right: torques('right') },
    });
  }
  return found;
}
