import type { Subject } from './subject.js';

/** Told of while the shoes lie cured and wait for their rider: not of what cures longer, went home or was given up. */
export const shoeWorkSubject: Subject = {
  async prepare(tx, { studioId, subjectId }) {
    const rows = await tx.query<{ shoes: string }[]>(
      `SELECT s.name AS shoes FROM shoe_works w JOIN shoes s ON s.studio_id = w.studio_id AND s.id = w.shoe_id
        WHERE w.studio_id = $1 AND w.id = $2 AND w.state IN ('curing', 'to_collect') AND w.to_collect_at <= app_now()`,
      [studioId, subjectId],
    );
    return rows[0] ? { values: { shoes: rows[0].shoes } } : null;
  },
};
