import { Injectable } from '@nestjs/common';
import { TenantTransaction, type TenantContext } from '@studio/database';
import { comparePositions, positionField, type PositionFigures } from '@studio/fit-math';
import { pageOf, pageSize } from '../../http/paging.js';
import { found } from '../../http/problem.js';
import { requireKnownClient } from '../clients/index.js';
import type { FitSessionResponse } from './fit-sessions.dto.js';
import { findFitSession } from './fit-sessions.queries.js';
import * as queries from './positions.queries.js';
import {
  withWhatIsMissing,
  type CompareQuery,
  type ComparisonOfPositionsResponse,
  type HardwareDifferenceResponse,
  type ListPositionsQuery,
  type PositionPage,
  type PositionRequest,
  type PositionStage,
} from './positions.dto.js';
import { SessionWrites } from './session-writes.js';
import { putPosition } from './writes/put-position.js';

@Injectable()
export class PositionsService {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly writes: SessionWrites,
  ) {}

  async put(
    ctx: TenantContext,
    fitSessionId: string,
    stage: PositionStage,
    request: PositionRequest,
  ): Promise<FitSessionResponse> {
    await this.writes.now(ctx, fitSessionId, putPosition, { ...request, stage });
    const key = { studioId: ctx.studioId, id: fitSessionId };
    return found(await this.transaction.read(ctx, (sql) => findFitSession(sql, key)));
  }

  async list(ctx: TenantContext, clientId: string, query: ListPositionsQuery): Promise<PositionPage> {
    const { studioId } = ctx;
    const { bikeId = null, stage = null, after = null } = query;
    const limit = pageSize(query);
    const rows = await this.transaction.run(ctx, async (tx) => {
      await requireKnownClient(tx, studioId, clientId);
      return queries.listPositions(tx, { studioId, clientId, bikeId, stage, after, limit: limit + 1 });
    });
    return pageOf(rows.map(withWhatIsMissing), limit);
  }

  async compare(
    ctx: TenantContext,
    clientId: string,
    query: CompareQuery,
  ): Promise<ComparisonOfPositionsResponse> {
    const { studioId } = ctx;
    return this.transaction.read(ctx, async (sql) => {
      const find = async (id: string): Promise<queries.PositionOfClientRow> =>
        found(await queries.findPositionOfClient(sql, { studioId, clientId, id }));
      const [from, to] = await Promise.all([find(query.from), find(query.to)]);
      return {
        from: withWhatIsMissing(from),
        to: withWhatIsMissing(to),
        differences: comparePositions(figuresOf(from), figuresOf(to)).map((difference) => ({
          ...difference,
          definition: positionField(difference.field).definition,
        })),
        hardware: [
          ...hardwareDifference('left', from.hardwareLeft, to.hardwareLeft),
          ...hardwareDifference('right', from.hardwareRight, to.hardwareRight),
        ],
      };
    });
  }
}

const figuresOf = (row: queries.PositionOfClientRow): PositionFigures => ({
  values: row,
  methods: row.methods,
});

function hardwareDifference(
  side: 'left' | 'right',
  from: string[] | null,
  to: string[] | null,
): HardwareDifferenceResponse[] {
  if (from === null || to === null) return [];
  return [
    {
      side,
      from,
      to,
      added: to.filter((part) => !from.includes(part)),
      removed: from.filter((part) => !to.includes(part)),
    },
  ];
}
