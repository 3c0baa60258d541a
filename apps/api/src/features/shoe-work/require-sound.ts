import type { Activity } from '@studio/clinical-flags';
import type { Shoe } from '@studio/database';
import {
  isBonded,
  shoeWorkFeasibility,
  type Feasibility,
  type Fixing,
  type ShoeWorkFacts,
} from '@studio/shoe-work';
import type { EntityManager } from 'typeorm';
import { requirePermission } from '../screenings/index.js';
import { CannotTell, NotFeasible } from './shoe-work.errors.js';

/** What somebody looked at and looked up; null: nobody did. */
export type Looked = Pick<ShoeWorkFacts, 'cracked' | 'recalled'>;

export const factsOf = (shoe: Shoe, { cracked, recalled }: Looked): ShoeWorkFacts => {
  const { outerLengthMm, holePattern, slotRearFromHeelMm, archChannel, soleCurve, soleMaterial } = shoe;
  return {
    outerLengthMm,
    holePattern,
    slotRearFromHeelMm,
    archChannel,
    soleCurve,
    soleMaterial,
    cracked,
    recalled,
  };
};

/** What the screening must permit: the cleat goes elsewhere, the sole is changed, and adhesive is used. */
export const asked = (fixing: Fixing): readonly Activity[] =>
  isBonded(fixing) ? ['cleat_change', 'shoe_work', 'bonding'] : ['cleat_change', 'shoe_work'];

/**
 * Asked when a case is opened, when it is signed, and each time a sole is about to be changed for good: what held before
 * may not hold now.
 *
 * @throws NotFeasible, CannotTell by the shoe; NotPermitted by the screening in force
 */
export async function requireSound(
  tx: EntityManager,
  work: { studioId: string; clientId: string; way: string; fixing: Fixing },
  facts: ShoeWorkFacts,
): Promise<void> {
  const { studioId, clientId } = work;
  const found = shoeWorkFeasibility(facts).find(({ way }) => way === work.way) as Feasibility;
  if (found.result === 'not_feasible') throw new NotFeasible(found);
  if (found.result === 'cannot_tell') throw new CannotTell(found);
  for (const activity of asked(work.fixing)) await requirePermission(tx, { studioId, clientId }, activity);
}
