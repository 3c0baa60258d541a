import { ApiProperty } from '@nestjs/swagger';
import { queueNames, queues, rulesOf, type QueueName } from '@studio/job-contracts';
import type { FailedOrder, JobCounts } from './queues.queries.js';

export class QueueResponse {
  @ApiProperty({ enum: queueNames })
  name: QueueName;

  @ApiProperty({ type: 'integer', description: 'Ordered for a later time.', example: 212 })
  scheduled: number;

  @ApiProperty({
    type: 'integer',
    description: 'Due and not done: those handed over to a worker, and those that wait their turn.',
    example: 3,
  })
  waiting: number;

  @ApiProperty({ type: 'integer', description: 'Of the waiting, those handed over.', example: 2 })
  handedOver: number;

  @ApiProperty({
    type: 'integer',
    description: 'A try failed, and the next one has not come yet; in none of the other counts but `late`.',
    example: 0,
  })
  retrying: number;

  @ApiProperty({
    type: 'integer',
    description: 'Undone for longer than `lateAfterSeconds` since they were due.',
    example: 0,
  })
  late: number;

  @ApiProperty({
    type: 'integer',
    description: 'Given up and neither tried again nor discarded by anybody.',
    example: 0,
  })
  failed: number;

  @ApiProperty({
    type: String,
    format: 'date-time',
    nullable: true,
    description: 'Since when the oldest of the waiting and the retrying is due.',
  })
  oldestDueAt: string | null;

  @ApiProperty({ type: 'integer', example: 120 })
  lateAfterSeconds: number;
}

export class WorkersResponse {
  @ApiProperty({ type: 'integer', description: 'Workers heard of in the last half minute.', example: 1 })
  alive: number;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  lastHeardOfAt: string | null;
}

export class QueuesResponse {
  @ApiProperty({ type: [QueueResponse], description: 'Every queue, with the orders of this studio.' })
  queues: QueueResponse[];

  @ApiProperty({ description: 'Shared by all studios of this server.' })
  workers: WorkersResponse;
}

export class FailedOrderResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'send-follow-up' })
  job: string;

  @ApiProperty({
    description: 'What it is about: ids only.',
    type: 'object',
    additionalProperties: true,
    example: { followUpId: '0199d0c2-7c4e-7e57-8f4f-3f1f7a0c9b11' },
  })
  about: object;

  @ApiProperty({ format: 'date-time' })
  dueAt: string;

  @ApiProperty({ format: 'date-time' })
  gaveUpAt: string;

  @ApiProperty({ type: 'integer', example: 24 })
  attempts: number;

  @ApiProperty({ type: String, nullable: true, example: 'SMTP 550' })
  lastError: string | null;

  static of(row: FailedOrder): FailedOrderResponse {
    const { dueAt, gaveUpAt, ...rest } = row;
    return { ...rest, dueAt: dueAt.toISOString(), gaveUpAt: gaveUpAt.toISOString() };
  }
}

export class FailedOrderPage {
  @ApiProperty({ type: [FailedOrderResponse] })
  items: FailedOrderResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

type Counts = Omit<JobCounts, 'job' | 'oldestDueAt'>;
const counted = [
  'scheduled',
  'waiting',
  'handedOver',
  'retrying',
  'late',
  'failed',
] as const satisfies (keyof Counts)[];

/** Every queue, those without an order too. */
export function toQueues(rows: readonly JobCounts[]): QueueResponse[] {
  return queueNames.map((name) => {
    const mine = rows.filter(({ job }) => rulesOf(job).queue === name);
    const sums = Object.fromEntries(
      counted.map((key) => [key, mine.reduce((sum, row) => sum + row[key], 0)]),
    ) as Record<(typeof counted)[number], number>;
    const oldest = mine
      .flatMap(({ oldestDueAt }) => oldestDueAt ?? [])
      .sort((one, other) => +one - +other)[0];
    return {
      name,
      ...sums,
      oldestDueAt: oldest?.toISOString() ?? null,
      lateAfterSeconds: queues[name].lateAfterSeconds,
    };
  });
}
