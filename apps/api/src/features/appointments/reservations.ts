import { together, violates, type SqlRunner, type TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { AppointmentOverlap } from './appointments.errors.js';
import * as queries from './appointments.queries.js';

/** How often a bench may be snatched away between being found free and being taken. */
const tries = 3;

/** Have the slots to ourselves until the transaction ends: wait our turn, and clear away holds that ran out. */
export async function makeRoom(
  tx: EntityManager,
  ctx: TenantContext,
  slots: readonly queries.Wanted[],
): Promise<void> {
  const [, ...lapsed] = await together([
    queries.takeTurn(tx, slots),
    ...slots.map((slot) => queries.lapseHolds(tx, slot)),
  ]);
  for (const id of lapsed.flat()) {
    const change = { action: 'lapse', reason: null, changedBy: null };
    await queries.insertChange(tx, { studioId: ctx.studioId, id }, change);
  }
}

/** The same for a bench that something else than a visit takes. Milliseconds since the epoch. */
export async function makeRoomOnBench(
  tx: EntityManager,
  ctx: TenantContext,
  { benchId, during }: { benchId: string; during: { readonly start: number; readonly end: number } },
): Promise<void> {
  const { studioId } = ctx;
  const wanted = { studioId, benchId, fitterId: null, roomId: null, occupied: during, curing: during };
  await makeRoom(tx, ctx, [wanted]);
}

/**
 * Run work that takes slots. The database decides who was first; what stood in the way is looked up afterwards, for
 * the answer.
 *
 * @param options.work tells `want` what it is about to take
 * @throws AppointmentOverlap when somebody else was first
 */
export async function tellingClash<T>(options: {
  read: <R>(look: (sql: SqlRunner) => Promise<R>) => Promise<R>;
  exceptId: string | null;
  work: (want: (slots: readonly queries.Slot[]) => void) => Promise<T>;
}): Promise<T> {
  for (let attempt = 1; ; attempt += 1) {
    let wanted: readonly queries.Slot[] = [];
    try {
      return await options.work((slots) => (wanted = slots));
    } catch (error) {
      const benchTaken = violates(error, 'appointments_bench_free') || violates(error, 'bench_times_free');
      const taken =
        benchTaken ||
        violates(error, 'appointments_fitter_free') ||
        violates(error, 'appointments_room_free');
      if (!taken) throw error;
      if (benchTaken && attempt < tries) continue;
      throw new AppointmentOverlap(
        await options.read(async (sql) => {
          for (const slot of wanted) {
            const clash = await queries.findClash(sql, slot, options.exceptId);
            if (clash) return clash;
          }
          return null;
        }),
      );
    }
  }
}
