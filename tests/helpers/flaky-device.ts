import { expect } from '@jest/globals';
import type { components } from '@studio/api-client';
import { randomBytes, randomUUID } from 'node:crypto';
import type { Operation } from './session-model.js';

type Schemas = components['schemas'];
type Result = Schemas['OperationResult'];
type Answer = Schemas['OperationsResponse'];

/** What one device made and another may speak of. */
const sharedIds = { measured: [] as string[], changed: [] as string[] };

/** Keeps what it did until it is told what became of it, over a connection that loses requests and answers. */
export class FlakyDevice {
  readonly outcomes = new Map<string, Result>();
  sent = 0;
  lost = 0;
  waited = 0;

  readonly id = randomUUID();

  constructor(
    readonly operations: readonly Operation[],
    private readonly random: () => number,
    private readonly send: (body: Schemas['OperationsRequest'], signal?: AbortSignal) => Promise<Answer>,
  ) {}

  async sendAll(): Promise<void> {
    while (this.outcomes.size < this.operations.length) {
      const batch = this.nextBatch();
      const luck = this.random();
      if (luck < 0.15) {
        this.lost += 1;
        continue;
      }
      this.sent += batch.length;
      try {
        const { results } = await this.post(batch, luck < 0.3 ? this.random() * 60 : undefined);
        if (luck < 0.45) this.lost += 1;
        else results.forEach((result) => this.learn(result));
      } catch {
        this.lost += 1;
        await new Promise((resolve) => setTimeout(resolve, 20));
      }
    }
  }

  /** @param cutOffAfterMs the connection breaks then, whatever the API is doing */
  async post(operations: readonly Operation[], cutOffAfterMs?: number): Promise<Answer> {
    const signal = cutOffAfterMs === undefined ? undefined : AbortSignal.timeout(Math.ceil(cutOffAfterMs));
    return this.send({ deviceId: this.id, operations: [...operations] }, signal);
  }

  private learn(result: Result): void {
    if (result.state === 'waiting') {
      this.waited += 1;
      return;
    }
    const before = this.outcomes.get(result.id);
    if (before) expect(result).toEqual(before);
    this.outcomes.set(result.id, result);
  }

  /** Some of what is not settled, shuffled, with holes, and now and then something that long is. */
  private nextBatch(): Operation[] {
    const open = this.operations.filter(({ id }) => !this.outcomes.has(id)).slice(0, 25);
    const settled = this.operations.filter(({ id }) => this.outcomes.has(id));
    const some = open.filter(() => this.random() < 0.8);
    const again = settled.filter(() => this.random() < 0.03).slice(0, 5);
    const batch = [...(some.length > 0 ? some : open), ...again];
    return batch
      .map((operation) => ({ operation, order: this.random() }))
      .sort((one, other) => one.order - other.order)
      .map(({ operation }) => operation);
  }
}

/** What somebody did on a device, some of it impossible, some of it on what others did. */
export function plan(name: string, count: number, random: () => number): Operation[] {
  const below = (n: number): number => Math.floor(random() * n);
  const oneOf = <T>(items: readonly T[]): T => items[below(items.length)] as T;
  const measured = sharedIds.measured;
  const changed = sharedIds.changed;
  return Array.from({ length: count }, (_, place): Operation => {
    const id = uuidV7();
    const sequence = place + 1;
    const madeAt = new Date(Date.UTC(2026, 2, 2, 9) + sequence * 7000).toISOString();
    const basedOn = below(4);
    const stage = oneOf(['found', 'proposed', 'left'] as const);
    const visitStage = oneOf(['interview', 'bench', 'on_the_bike', 'changes', 'hand_over'] as const);
    const inseam = { kind: 'inseam', method: 'tape', unit: 'cm', repeats: [below(90) + 38, 82.5] };
    const done = (kind: Operation['kind'], payload: Record<string, unknown>): Operation => ({
      ...{ id, sequence, kind, payload, madeAt },
    });
    const luck = random();
    if (luck < 0.25 || measured.length === 0) {
      measured.push(id);
      return done('add_measurement', inseam);
    }
    if (luck < 0.33) {
      return done('withdraw_measurement', { measurementId: oneOf(measured), reason: `${name} ${sequence}` });
    }
    if (luck < 0.4) {
      const measurementId = oneOf(measured);
      measured.push(id);
      return done('correct_measurement', { ...inseam, measurementId, reason: `${name} ${sequence}` });
    }
    if (luck < 0.55) return done('put_position', { stage, saddleHeightMm: 700 + below(80), basedOn });
    if (luck < 0.62) {
      const rest = { comfort: null, numbness: null, power20MinW: null };
      return done('put_baseline', { pain: below(11), ...rest, basedOn });
    }
    if (luck < 0.7) return done('put_place', { stage: visitStage, note: `${name} ${sequence}`, basedOn });
    if (luck < 0.76) return done('start_timer', { stage: visitStage });
    if (luck < 0.82) return done('stop_timer', { stage: visitStage });
    if (luck < 0.9 || changed.length === 0) {
      changed.push(id);
      const items = [{ what: 'saddleHeightMm', from: 740, to: 700 + below(80) }];
      return done('add_change', { items, why: `${name} ${sequence}` });
    }
    return done('put_change_response', { changeId: oneOf(changed), comfort: below(101), basedOn });
  });
}

/** RFC 9562, version 7. */
export function uuidV7(): string {
  const time = Date.now().toString(16).padStart(12, '0');
  const rest = randomBytes(10).toString('hex');
  return `${time.slice(0, 8)}-${time.slice(8)}-7${rest.slice(0, 3)}-8${rest.slice(3, 6)}-${rest.slice(6, 18)}`;
}
