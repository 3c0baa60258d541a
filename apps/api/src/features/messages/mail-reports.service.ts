import { Inject, Injectable } from '@nestjs/common';
import type { ApiConfig } from '@studio/config';
import { hashesEqual, openTask, recordAudit, secretHash, TenantTransaction } from '@studio/database';
import { judgeReport } from '@studio/messages';
import { ApiConfigToken } from '../../http/http.module.js';
import { InvalidRequest, NotFound, NotSignedIn } from '../../http/problem.js';
import type { MailReportResponse } from './mail-reports.dto.js';
import { markBounced, noteDelay } from './mail-reports.queries.js';
import { StillBeingSent } from './messages.errors.js';
import { findOrder } from './messages.queries.js';
import { readReport } from './read-report.js';

@Injectable()
export class MailReportsService {
  constructor(
    private readonly transaction: TenantTransaction,
    @Inject(ApiConfigToken) private readonly config: ApiConfig,
  ) {}

  /** The same report may come more than once: it is done once. */
  async take(
    authorization: string | undefined,
    body: unknown,
    requestId: string,
  ): Promise<MailReportResponse> {
    const { mailReportSecret } = this.config;
    if (mailReportSecret === null) throw new NotFound();
    const given = /^Bearer (?<secret>\S+)$/.exec(authorization ?? '')?.groups?.['secret'] ?? '';
    if (!hashesEqual(secretHash(given), secretHash(mailReportSecret))) throw new NotSignedIn();
    if (!Buffer.isBuffer(body)) {
      throw new InvalidRequest([{ field: 'body', message: 'must be a mail of the type message/rfc822' }]);
    }
    const read = await readReport(body);
    if (!read) return { outcome: 'not_ours' };
    const { studioId, messageId: id, report } = read;
    const { outcome, addressDead } = judgeReport(report);
    return this.transaction.run({ studioId }, async (tx) => {
      const message = await findOrder(tx, { studioId, id });
      if (!message) return { outcome: 'not_ours' };
      // The server was quicker than our commit; the mail server tries again.
      if (message.state === 'sending') throw new StillBeingSent();
      if (outcome === 'delayed') await noteDelay(tx, { studioId, id }, report.status);
      if (outcome !== 'failed' || message.bouncedAt !== null) return { outcome };
      await markBounced(tx, message, { status: report.status, addressDead });
      const { clientId } = message;
      if (clientId !== null) {
        await openTask(tx, { studioId, kind: 'mail_bounced', role: 'front_desk', subjectId: id, clientId });
      }
      const ctx = { studioId, userId: null, roles: [], requestId };
      await recordAudit(tx, ctx, { action: 'messages.bounce', recordId: id });
      return { outcome };
    });
  }
}
