import type { EntityManager } from 'typeorm';
import { found } from '../../http/problem.js';
import { findBike, findShoe } from '../equipment/index.js';
import { findFitSession } from '../fit-sessions/index.js';
import { findFootPitch } from '../motion-recordings/index.js';
import type { SessionFacts } from './facts.js';

/** @throws NotFound */
export async function readFacts(
  tx: EntityManager,
  { studioId, fitSessionId }: { studioId: string; fitSessionId: string },
): Promise<SessionFacts> {
  const session = found(await findFitSession(tx, { studioId, id: fitSessionId }));
  const { clientId, bikeId, shoeId, measurements, positions } = session;
  const bike = found(await findBike(tx, { studioId, clientId, id: bikeId }));
  const shoe = found(await findShoe(tx, { studioId, clientId, id: shoeId }));
  const [left, right] = [
    await findFootPitch(tx, { studioId, fitSessionId, side: 'left' }),
    await findFootPitch(tx, { studioId, fitSessionId, side: 'right' }),
  ];
  const captured = { ...(left && { left }), ...(right && { right }) };
  return { measurements, positions, captured, bike, shoe };
}
