import { CleatPlanRow } from '@studio/database';
import type { CleatPlan, CleatPlanInput } from '@studio/fit-math';
import type { EntityManager } from 'typeorm';
import type { CleatPlanRecord } from './cleat-plan.dto.js';

export async function insertCleatPlan(
  tx: EntityManager,
  row: {
    studioId: string;
    fitSessionId: string;
    side: 'left' | 'right';
    inputs: CleatPlanInput;
    result: CleatPlan;
    saddleOffsetMm: number;
  },
): Promise<CleatPlanRecord> {
  const { identifiers } = await tx.insert(CleatPlanRow, {
    ...row,
    formulaVersion: row.result.formulaVersion,
  });
  const { id } = identifiers[0] as { id: string };
  return {
    id,
    side: row.side,
    result: row.result,
    saddleOffsetMm: row.saddleOffsetMm,
    chosenWay: null,
    chosenBecause: null,
  };
}

export function findCleatPlan(
  tx: EntityManager,
  key: { studioId: string; id: string },
): Promise<CleatPlanRow | null> {
  return tx.findOneBy(CleatPlanRow, key);
}

export async function chooseOption(
  tx: EntityManager,
  key: { studioId: string; id: string },
  choice: { way: string; because: string },
): Promise<void> {
  await tx.update(CleatPlanRow, key, { chosenOption: choice.way, chosenBecause: choice.because });
}
