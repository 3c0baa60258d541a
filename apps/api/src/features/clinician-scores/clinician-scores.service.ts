import { Injectable } from '@nestjs/common';
import { ClinicianInputInvalid, type Clinician } from '@studio/clinical-flags';
import { findClinicianMark, recordAudit, TenantTransaction, type TenantContext } from '@studio/database';
import { InvalidRequest, NotAllowed } from '../../http/problem.js';
import { requireClient, requireConsent, requireKnownClient } from '../clients/index.js';
import { screenByClinician } from '../screenings/index.js';
import type { ClinicianScoreResponse, RecordClinicianScoreRequest } from './clinician-scores.dto.js';
import { ScoreImpossible } from './clinician-scores.errors.js';
import { insertScore, listScores } from './clinician-scores.queries.js';
import { scoresOf, type Scored } from './scores.js';

@Injectable()
export class ClinicianScoresService {
  constructor(private readonly transaction: TenantTransaction) {}

  /** The score is kept beside a screening that holds what follows from it. */
  async record(
    ctx: TenantContext,
    clientId: string,
    request: RecordClinicianScoreRequest,
  ): Promise<ClinicianScoreResponse> {
    const { studioId } = ctx;
    return this.transaction.runOnce(ctx, async (tx) => {
      // The access token may be older than the end of the mark.
      const mark = await findClinicianMark(tx, { studioId, userId: ctx.userId as string });
      if (!mark) throw new NotAllowed();
      await requireClient(tx, studioId, clientId);
      await requireConsent(tx, { studioId, clientId }, 'health_data');
      const { kind, found, score } = theOneOf(request, {
        name: mark.displayName,
        registration: mark.registration,
      });
      const screeningId = await screenByClinician(tx, ctx, { clientId, score });
      const { findings: _, ...result } = score;
      const row = { studioId, clientId, screeningId, kind, found, result, clinicianMarkId: mark.id };
      const id = await insertScore(tx, row);
      await recordAudit(tx, ctx, { action: 'clinician-scores.record', recordId: id, fields: [kind] });
      return (await listScores(tx, { studioId, clientId, id }))[0] as ClinicianScoreResponse;
    });
  }

  async list(ctx: TenantContext, clientId: string): Promise<ClinicianScoreResponse[]> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      await requireKnownClient(tx, studioId, clientId);
      return listScores(tx, { studioId, clientId });
    });
  }
}

/** @throws InvalidRequest unless it holds values for exactly one score; ScoreImpossible */
function theOneOf(request: RecordClinicianScoreRequest, by: Clinician): Scored {
  try {
    const [scored, ...others] = scoresOf(request, by);
    if (scored && others.length === 0) return scored;
  } catch (error) {
    if (error instanceof ClinicianInputInvalid) throw new ScoreImpossible(error);
    throw error;
  }
  throw new InvalidRequest([{ field: 'body', message: 'must hold the values of exactly one score' }]);
}
