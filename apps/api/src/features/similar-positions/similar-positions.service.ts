import { Injectable } from '@nestjs/common';
import { TenantTransaction, type TenantContext } from '@studio/database';
import { measurementKind, positionField, type MeasurementKindId } from '@studio/fit-math';
import { found } from '../../http/problem.js';
import type { BikeUse } from '../equipment/index.js';
import type { SegmentsResponse, SimilarPositionsResponse } from './similar-positions.dto.js';
import { SegmentsNotMeasured } from './similar-positions.errors.js';
import * as queries from './similar-positions.queries.js';

/** Fewer would speak of one. */
const fewestShown = 5;
/** Quartiles of few riders are single riders' figures; rounded, they are nobody's. */
const roundedTo = 5;
const within = 1;

const sixthOfPlausible = (kind: MeasurementKindId): number => {
  const [least, greatest] = measurementKind(kind).plausible;
  return (greatest - least) / 6;
};
const scaleMm: SegmentsResponse = {
  thighMm: sixthOfPlausible('thigh_length'),
  shankMm: sixthOfPlausible('shank_length'),
  footLeverMm: sixthOfPlausible('foot_lever'),
};

const caution =
  'Context, not a rule: it tells how others with such legs were left, not what this rider needs. How they ride, sit and ' +
  'bend is not compared.';

@Injectable()
export class SimilarPositionsService {
  constructor(private readonly transaction: TenantTransaction) {}

  /** @throws NotFound, SegmentsNotMeasured */
  async find(
    ctx: TenantContext,
    fitSessionId: string,
    { use = null }: { use?: BikeUse | null },
  ): Promise<SimilarPositionsResponse> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      const { clientId } = found(await queries.findSession(tx, { studioId, id: fitSessionId }));
      const segments = required(await queries.findSegments(tx, { studioId, id: fitSessionId }));
      const fitSessionIds = await queries.findSimilarSessions(tx, {
        ...{ studioId, clientId, segments, scaleMm, within, use },
      });
      const riders = fitSessionIds.length;
      const answer = { use, segments, scaleMm, within, riders, caution };
      if (riders < fewestShown) return { ...answer, figures: null };
      const spreads = await queries.spreadOfFigures(tx, { studioId, fitSessionIds, atLeast: fewestShown });
      const figures = spreads.map(({ field, riders: measured, quartiles }) => {
        const [lowerQuartile, median, upperQuartile] = quartiles.map(rounded) as [number, number, number];
        const { definition, unit } = positionField(field);
        return { field, definition, unit, riders: measured, lowerQuartile, median, upperQuartile };
      });
      return { ...answer, figures };
    });
  }
}

const rounded = (value: number): number => roundedTo * Math.round(value / roundedTo);

function required(segments: { [Segment in keyof SegmentsResponse]: number | null }): SegmentsResponse {
  const { thighMm, shankMm, footLeverMm } = segments;
  if (thighMm === null || shankMm === null || footLeverMm === null) {
    const kinds = { thigh_length: thighMm, shank_length: shankMm, foot_lever: footLeverMm };
    throw new SegmentsNotMeasured(
      Object.entries(kinds).flatMap(([kind, value]) => (value === null ? [kind] : [])),
    );
  }
  return { thighMm, shankMm, footLeverMm };
}
