import { Injectable } from '@nestjs/common';
import {
  recordAudit,
  sameClientIds,
  TenantTransaction,
  type PairedPosition,
  type TenantContext,
} from '@studio/database';
import { formulaVersion, type FootAndCrankChange, type TransferInput } from '@studio/fit-math';
import type { EntityManager } from 'typeorm';
import { pageOf, pageSize, type PageQuery } from '../../http/paging.js';
import { found, InvalidRequest, UnknownReference } from '../../http/problem.js';
import { inputProblems } from '../calculations/index.js';
import { requireClient, requireKnownClient } from '../clients/index.js';
import { findBikeResponse, requireInUse } from '../equipment/index.js';
import { findFitSession } from '../fit-sessions/index.js';
import { requirePermission } from '../screenings/index.js';
import {
  contactFigures,
  contactPointsAt,
  figures,
  footPitchFrom,
  legKindsOf,
  measured,
  newestPosition,
  riderErrorsFrom,
  riderFrom,
  type SessionFacts,
  type Side,
} from './facts.js';
import { figuresOf, pairPositions, type PairInput } from './pair-positions.js';
import type {
  BuildListResponse,
  PairedPositionPage,
  PairedPositionResponse,
  PairPositionsRequest,
} from './paired-positions.dto.js';
import * as queries from './paired-positions.queries.js';
import { partsInUse, partsOfBike } from './parts-on-bike.js';
import { NotMeasuredYet } from './plans.errors.js';
import { readFacts } from './read-facts.js';

@Injectable()
export class PairedPositionsService {
  constructor(private readonly transaction: TenantTransaction) {}

  /** @throws NotFound, UnknownReference, NotMeasuredYet, InvalidRequest, FitMathError */
  async pair(
    ctx: TenantContext,
    clientId: string,
    request: PairPositionsRequest,
  ): Promise<PairedPositionResponse> {
    const { studioId } = ctx;
    const { first, second, side = null, because } = request;
    return this.transaction.runOnce(ctx, async (tx) => {
      await requireClient(tx, studioId, clientId);
      await requireInUse(tx, { studioId, clientId, bikeId: second.bikeId, shoeId: second.shoeId });
      await requireSessionOf(tx, { studioId, clientId, id: first.fitSessionId }, 'first.fitSessionId');
      if (second.fitSessionId !== undefined) {
        await requireSessionOf(tx, { studioId, clientId, id: second.fitSessionId }, 'second.fitSessionId');
      }
      if ((request.cleatBackMm ?? 0) !== 0) {
        await requirePermission(tx, { studioId, clientId }, 'cleat_change');
      }
      const facts = await readFacts(tx, { studioId, fitSessionId: first.fitSessionId });
      const input = await readPair(tx, { studioId, clientId }, facts, request);
      const { search, ...kept } = input;
      const result = pairPositions(input);
      const row = await queries.insertPairedPosition(tx, {
        ...{ studioId, clientId, firstSessionId: first.fitSessionId, firstUse: first.use },
        ...{ secondBikeId: second.bikeId, secondShoeId: second.shoeId, secondUse: second.use },
        ...{ secondSessionId: second.fitSessionId ?? null, side: input.leg ? side : null },
        inputs: { ...kept, build: search ? (request.build ?? null) : null },
        footPitchFrom: footPitchFrom(facts, input.leg && side ? [side] : []),
        ...{ result, formulaVersion, because, plannedBy: ctx.userId as string },
      });
      await recordAudit(tx, ctx, { action: 'paired-positions.create', recordId: row.id });
      return toResponse(row);
    });
  }

  async get(ctx: TenantContext, id: string): Promise<PairedPositionResponse> {
    const key = { studioId: ctx.studioId, id };
    return toResponse(found(await this.transaction.run(ctx, (tx) => queries.findPairedPosition(tx, key))));
  }

  async list(ctx: TenantContext, clientId: string, query: PageQuery): Promise<PairedPositionPage> {
    const { studioId } = ctx;
    const limit = pageSize(query);
    return this.transaction.run(ctx, async (tx) => {
      await requireKnownClient(tx, studioId, clientId);
      const page = { studioId, clientId, after: query.after ?? null, limit: limit + 1 };
      return pageOf((await queries.listPairedPositions(tx, page)).map(toResponse), limit);
    });
  }
}

async function requireSessionOf(
  tx: EntityManager,
  { studioId, clientId, id }: { studioId: string; clientId: string; id: string },
  field: string,
): Promise<void> {
  const session = await findFitSession(tx, { studioId, id });
  const ofClient = await sameClientIds(tx, { studioId, clientId });
  if (!session || !ofClient.includes(session.clientId)) throw new UnknownReference(field);
}

async function readPair(
  tx: EntityManager,
  of: { studioId: string; clientId: string },
  facts: SessionFacts,
  request: PairPositionsRequest,
): Promise<PairInput> {
  const position = newestPosition(facts.positions);
  if (!position) throw new NotMeasuredYet(['position_left']);
  figures(facts, ['saddleHeightMm']);
  const firstBike = found(await findBikeResponse(tx, { ...of, id: facts.bike.id }));
  const secondBike = found(await findBikeResponse(tx, { ...of, id: request.second.bikeId }));
  const [firstParts, secondParts] = [partsInUse(firstBike), partsInUse(secondBike)];
  const crankLengthMm = request.crankLengthMm ?? secondBike.crankLengthMm;
  const change: FootAndCrankChange = {
    cleatBackMm: request.cleatBackMm ?? 0,
    crankLongerMm: crankLengthMm - (position.crankLengthMm ?? facts.bike.crankLengthMm),
    ankleHigherMm:
      request.ankleHigherMm ?? difference(secondParts.pedalStackMm, firstParts.pedalStackMm) ?? 0,
  };
  const { saddleForwardMm = 0, saddleUpMm = 0, gripsForwardMm = 0, gripsUpMm = 0 } = request.otherwise ?? {};
  const sameBike = firstBike.id === secondBike.id;
  return {
    leg: Object.values(change).some((by) => by !== 0) ? legOf(facts, request.side ?? null) : null,
    change,
    carryOver: {
      first: figuresOf(position).values,
      firstSeatTubeAngleDeg: firstBike.seatTubeAngleDeg,
      secondSeatTubeAngleDeg: secondBike.seatTubeAngleDeg,
      cleatBackMm: request.cleatBackMm ?? 0,
      crankLengthMm,
      otherwise: { saddleForwardMm, saddleUpMm, gripsForwardMm, gripsUpMm },
      saddleTipTo80MmLongerMm: sameBike
        ? 0
        : (difference(secondParts.saddleTipTo80MmWidthMm, firstParts.saddleTipTo80MmWidthMm) ?? 0),
      sameBars: sameBike,
      sameShoes: facts.shoe.id === request.second.shoeId,
    },
    now: await secondAsItIs(tx, of.studioId, request.second.fitSessionId),
    firstMethods: position.methods,
    onSecondBike: partsOfBike(secondBike, secondParts),
    search: request.build ? searchFor(secondBike, secondParts, request.build) : null,
  };
}

const difference = (one: number | null, other: number | null): number | null =>
  one === null || other === null ? null : one - other;

function legOf(facts: SessionFacts, side: Side | null): NonNullable<PairInput['leg']> {
  if (side === null) {
    throw new InvalidRequest([{ field: 'side', message: 'is needed where cleat, crank or sole differ' }]);
  }
  const of = measured(facts, side, legKindsOf(facts, side));
  return { rider: riderFrom(facts, side, of), errors: riderErrorsFrom(facts, side, of) };
}

async function secondAsItIs(
  tx: EntityManager,
  studioId: string,
  fitSessionId: string | undefined,
): Promise<PairInput['now']> {
  if (fitSessionId === undefined) return null;
  const { positions } = found(await findFitSession(tx, { studioId, id: fitSessionId }));
  const position = newestPosition(positions);
  return position ? figuresOf(position) : null;
}

/** Parts that are on the bike come first among those that can be had: of two alike nothing need be changed. */
function searchFor(
  bike: NonNullable<Awaited<ReturnType<typeof findBikeResponse>>>,
  { stems, spacersMm, bars, seatposts }: ReturnType<typeof partsInUse>,
  build: Readonly<Record<string, unknown>>,
): NonNullable<PairInput['search']> {
  const { frame, parts, ...rest } = build as { frame?: object; parts?: Record<string, unknown[]> };
  if (bike.frame === null) {
    throw new InvalidRequest([{ field: 'build', message: 'needs a second bike whose frame is on record' }]);
  }
  const known = { ...bike.frame, seatTubeAngleDeg: bike.seatTubeAngleDeg };
  const had = (name: string, ofBike: readonly unknown[]) => [
    ...ofBike,
    ...(Array.isArray(parts?.[name]) ? parts[name] : []),
  ];
  return (second) => {
    const missing = contactFigures.filter((field) => second[field] == null);
    if (missing.length > 0) throw new NotMeasuredYet(missing.map((field) => `position_left.${field}`));
    const input = {
      ...{ toleranceMm: 5, listed: 3, ...rest },
      wanted: contactPointsAt(
        second as Readonly<Record<(typeof contactFigures)[number], number>>,
        bike.seatTubeAngleDeg,
      ),
      frame: { ...frame, ...known },
      parts: {
        ...parts,
        ...{ stems: had('stems', stems), spacersMm: had('spacersMm', spacersMm) },
        ...{ bars: had('bars', bars), seatposts: had('seatposts', seatposts) },
      },
    };
    const wrong = inputProblems('transfers', input);
    if (wrong.length > 0) {
      throw new InvalidRequest(wrong.map(({ field, message }) => ({ field: `build.${field}`, message })));
    }
    return input as unknown as TransferInput;
  };
}

function toResponse(row: PairedPosition): PairedPositionResponse {
  const { id, clientId, side, formulaVersion: version, inputs, result, because, plannedBy, createdAt } = row;
  return {
    ...{ id, clientId, side, formulaVersion: version, inputs, because, plannedBy },
    first: { fitSessionId: row.firstSessionId, use: row.firstUse as PairedPositionResponse['first']['use'] },
    second: {
      ...{ bikeId: row.secondBikeId, shoeId: row.secondShoeId },
      use: row.secondUse as PairedPositionResponse['second']['use'],
      ...(row.secondSessionId !== null && { fitSessionId: row.secondSessionId }),
    },
    footPitchFrom: row.footPitchFrom as PairedPositionResponse['footPitchFrom'],
    result: result as BuildListResponse,
    plannedAt: createdAt.toISOString(),
  };
}
