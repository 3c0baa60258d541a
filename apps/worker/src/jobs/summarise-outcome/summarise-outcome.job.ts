import { finishOrder, type TenantTransaction } from '@studio/database';
import type { JobHandler, Order } from '../../order.js';
import { outcomeOf } from './outcome.js';
import * as queries from './summarise-outcome.queries.js';

/** Works a session's outcome out anew from its record; the same record gives the same outcome. */
export class SummariseOutcomeJob implements JobHandler<'summarise-outcome'> {
  constructor(private readonly transaction: TenantTransaction) {}

  async handle({ studioId, outboxId, payload }: Order<'summarise-outcome'>): Promise<void> {
    const key = { studioId, fitSessionId: payload.fitSessionId };
    await this.transaction.run({ studioId }, async (tx) => {
      const answers = await queries.findAnswered(tx, key);
      const latest = answers.at(-1);
      if (latest) {
        const outcome = outcomeOf(await queries.findOutcomeInputs(tx, key, answers));
        await queries.putOutcome(tx, { ...key, clientId: latest.clientId, followUpId: latest.id, outcome });
      }
      await finishOrder(tx, { studioId, outboxId });
    });
  }
}
