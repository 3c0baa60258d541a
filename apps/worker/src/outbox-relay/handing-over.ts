import { rulesOf } from '@studio/job-contracts';
import { startSpan } from '@studio/tracing';
import type { DueRow } from './outbox.queries.js';

/** Each order that is part of a trace goes on in it: its job is part of its being handed over. */
export async function handingOver(
  rows: readonly DueRow[],
  add: (rows: readonly DueRow[]) => Promise<void>,
): Promise<void> {
  const spans = rows.map(({ job, outboxId, traceparent }) =>
    traceparent === null
      ? undefined
      : startSpan({
          name: `relay ${job}`,
          kind: 'producer',
          attributes: orderAttributes({ job, outboxId }),
          parent: traceparent,
        }),
  );
  await add(rows.map((row, at) => ({ ...row, traceparent: spans[at]?.traceparent ?? row.traceparent })));
  for (const span of spans) span?.end();
}

/** OpenTelemetry's semantic conventions for messaging. */
export const orderAttributes = ({
  job,
  outboxId,
}: Pick<DueRow, 'job' | 'outboxId'>): Record<string, string> => ({
  'messaging.system': 'bullmq',
  'messaging.destination.name': rulesOf(job).queue,
  'messaging.message.id': outboxId,
});
