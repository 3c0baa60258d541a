import type { SqlRunner, VisitStage } from '@studio/database';
import { positionFieldIds, type PositionFieldId } from '@studio/fit-math';
import { listScreenedSites } from './changes.queries.js';
import type { FitSessionResponse } from './fit-sessions.dto.js';
import type { MissingResponse } from './flow.dto.js';

type Parts = Pick<FitSessionResponse, 'baseline' | 'positions' | 'changes' | 'spans' | 'cleatPlans'>;

/** The parts of `missingParts`, of a session as it stands. */
export async function missingForSignOff(
  sql: SqlRunner,
  { studioId }: { studioId: string },
  session: FitSessionResponse,
): Promise<MissingResponse[]> {
  return missingParts(session, await listScreenedSites(sql, { studioId, clientId: session.clientId }));
}

/**
 * What a session still lacks before it can be signed, in the order of the visit; empty when nothing. A position needs the
 * saddle's height at least, since that is what follow-ups compare, and as it was left every figure that was changed.
 *
 * @param screenedSites body sites that any screening of the rider was told of
 */
export function missingParts(session: Parts, screenedSites: readonly string[]): MissingResponse[] {
  return [
    ...(session.baseline === null
      ? [missing('interview', 'baseline', 'How the rider is before anything is changed.')]
      : []),
    ...missingFigures(session, 'found', ['saddleHeightMm']),
    ...missingChoices(session),
    ...missingResponses(session),
    ...unscreenedSites(session, screenedSites),
    ...missingFigures(session, 'left', ['saddleHeightMm', ...changedFigures(session)]),
    ...session.spans
      .filter(({ stoppedAt }) => stoppedAt === null)
      .map(({ stage }) => missing(stage, `timer_${stage}`, 'The timer still runs.')),
  ];
}

const missing = (stage: VisitStage, what: string, says: string): MissingResponse => ({ stage, what, says });

function missingFigures(
  { positions }: Parts,
  stage: 'found' | 'left',
  needed: readonly PositionFieldId[],
): MissingResponse[] {
  const of: VisitStage = stage === 'found' ? 'on_the_bike' : 'hand_over';
  const position = positions.find((item) => item.stage === stage);
  if (!position) return [missing(of, `position_${stage}`, `The position as ${stage}.`)];
  return [...new Set(needed)]
    .filter((field) => position[field] === null)
    .map((field) => missing(of, `position_${stage}.${field}`, `Not measured in the position as ${stage}.`));
}

const changedFigures = ({ changes }: Parts): PositionFieldId[] =>
  changes.flatMap(({ items }) =>
    items.flatMap(({ what }) => positionFieldIds.filter((field) => field === what)),
  );

/** The newest plan of a side waits for its choice; one made before it does not. */
const missingChoices = ({ cleatPlans }: Parts): MissingResponse[] =>
  (['left', 'right'] as const)
    .filter((side) => cleatPlans.findLast((plan) => plan.side === side)?.chosenWay === null)
    .map((side) =>
      missing('bench', `cleat_plan_choice_${side}`, `Which option of the ${side} cleat plan is carried out.`),
    );

const missingResponses = ({ changes }: Parts): MissingResponse[] =>
  changes
    .filter(({ response }) => response === null)
    .map(({ number }) =>
      missing('changes', `change_${number}.response`, `What the rider said of change ${number}.`),
    );

/** Pain at a place that no screening ever asked about is a complaint nobody has judged. */
function unscreenedSites({ changes }: Parts, screenedSites: readonly string[]): MissingResponse[] {
  const painful = changes.flatMap(({ response }) =>
    (response?.pains ?? []).filter(({ pain }) => pain > 0).map(({ site }) => site),
  );
  return [...new Set(painful)]
    .filter((site) => !screenedSites.includes(site))
    .map((site) =>
      missing('changes', `complaint.${site}`, 'Pain that no screening has heard of: report the complaint.'),
    );
}
