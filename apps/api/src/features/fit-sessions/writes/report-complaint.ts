import { recordAudit } from '@studio/database';
import { requireConsent } from '../../clients/index.js';
import { findPermission, requireInUse, screen } from '../../screenings/index.js';
import { found } from '../../../http/problem.js';
import { ComplaintRequest, type ComplaintResponse } from '../changes.dto.js';
import { findChange, insertComplaint, listReferralsOf } from '../changes.queries.js';
import type { SessionWrite } from './session-write.js';

const questionSetId = 'during-the-session';

/** What a rider complains of on the bike is judged at once; what it raises bars further changes until it is cleared. */
export const reportComplaint: SessionWrite<ComplaintRequest, ComplaintResponse> = {
  kind: 'report_complaint',
  payload: ComplaintRequest,
  apply: async (tx, by, { questionSetVersion, answers, remarks = null, changeId = null, toldAt }) => {
    const { ctx, session, id } = by;
    const { studioId } = ctx;
    const { id: fitSessionId, clientId } = session;
    if (changeId !== null) found(await findChange(tx, { studioId, fitSessionId, id: changeId }));
    await requireConsent(tx, { studioId, clientId }, 'health_data');
    const answered = { questionSetId, questionSetVersion, answers };
    requireInUse(answered);
    const {
      id: screeningId,
      evaluation,
      stands,
    } = await screen(tx, ctx, {
      clientId,
      occasion: 'during_session',
      ...answered,
    });
    const named = answers['complaint_sites'];
    const sites = Array.isArray(named) ? named.map(String) : [];
    const told = toldAt === undefined ? by.at : new Date(toldAt);
    const toldBy = ctx.userId as string;
    const complaint = { id, screeningId, changeId, sites, remarks, toldBy };
    await insertComplaint(tx, { studioId, fitSessionId, ...complaint, toldAt: told });
    await recordAudit(tx, ctx, { action: 'fit-sessions.complaint', recordId: fitSessionId });
    return {
      ...complaint,
      toldAt: told.toISOString(),
      raised: stands.map(({ ruleId, route, messageForStaff, messageForClient, permission }) => ({
        ...{ ruleId, route, messageForStaff, messageForClient },
        barred: permission.barred,
      })),
      openQuestions: evaluation.openFacts,
      barred: (await findPermission(tx, { studioId, clientId }))?.permission.barred ?? [],
      referralIds: await listReferralsOf(tx, { studioId, screeningId }),
      caution: evaluation.caution,
    };
  },
};
