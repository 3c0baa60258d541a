import type { components } from '@studio/api-client';

type Schemas = components['schemas'];
export type Operation = Schemas['OperationRequest'];
export type Stage = 'found' | 'proposed' | 'left';

/** Of whichever kind: what each reads, it has. */
interface Payload {
  readonly basedOn?: number;
  readonly repeats: number[];
  readonly measurementId: string;
  readonly reason: string;
  readonly stage: string;
  readonly note: string;
  readonly saddleHeightMm: number;
  readonly pain: number;
  readonly items: unknown;
  readonly changeId: string;
  readonly comfort: number;
}

interface Versioned<Value> {
  version: number;
  device: string;
  value: Value;
}
interface Change {
  id: string;
  items: unknown;
  response: Versioned<{ comfort: number }> | null;
}
interface Span {
  stage: string;
  startedAt: string;
  stoppedAt: string | null;
}

/**
 * What a session's record must be after some operations, worked out in memory and with nothing of the API: the rules as
 * a fitter would tell them.
 */
export class SessionModel {
  readonly positions: (Versioned<{ saddleHeightMm: number }> & { stage: Stage })[] = [];
  readonly measurements = new Map<
    string,
    { meanMm: number; withdrawn: string | null; corrects: string | null }
  >();
  readonly changes: Change[] = [];
  readonly spans: Span[] = [];
  baseline: Versioned<{ pain: number }> | null = null;
  place: Versioned<{ stage: string; note: string }> | null = null;

  /** Carry one out. */
  apply(operation: Operation, device: string): 'applied' | 'refused' | 'conflict' {
    const payload = operation.payload as unknown as Payload;
    /** Another device wrote a version that this one had not seen. */
    const lost = (standing: Versioned<unknown> | null | undefined): boolean =>
      payload.basedOn !== undefined &&
      payload.basedOn !== (standing?.version ?? 0) &&
      standing?.device !== device;
    const next = <Value>(standing: Versioned<Value> | null | undefined, value: Value): Versioned<Value> => ({
      version: (standing?.version ?? 0) + 1,
      device,
      value,
    });
    switch (operation.kind) {
      case 'add_measurement':
        return this.measure(operation.id, payload.repeats, null);
      case 'withdraw_measurement':
      case 'correct_measurement': {
        const measurement = this.measurements.get(payload.measurementId);
        if (!measurement) return 'refused';
        if (measurement.withdrawn !== null) return 'conflict';
        if (operation.kind === 'correct_measurement') {
          const taken = this.measure(operation.id, payload.repeats, payload.measurementId);
          if (taken === 'refused') return taken;
        }
        measurement.withdrawn = payload.reason;
        return 'applied';
      }
      case 'put_position': {
        const stage = payload.stage as Stage;
        const standing = this.positions.findLast((position) => position.stage === stage);
        if (lost(standing)) return 'conflict';
        this.positions.push({ stage, ...next(standing, { saddleHeightMm: payload.saddleHeightMm }) });
        return 'applied';
      }
      case 'put_baseline':
        if (lost(this.baseline)) return 'conflict';
        this.baseline = next(this.baseline, { pain: payload.pain });
        return 'applied';
      case 'put_place':
        if (lost(this.place)) return 'conflict';
        this.place = next(this.place, { stage: payload.stage, note: payload.note });
        return 'applied';
      case 'start_timer': {
        const { stage } = payload;
        if (this.running(stage)) return 'refused';
        this.spans.push({ stage, startedAt: operation.madeAt, stoppedAt: null });
        return 'applied';
      }
      case 'stop_timer': {
        const span = this.running(payload.stage);
        if (!span || operation.madeAt < span.startedAt) return 'refused';
        span.stoppedAt = operation.madeAt;
        return 'applied';
      }
      case 'add_change':
        this.changes.push({ id: operation.id, items: payload.items, response: null });
        return 'applied';
      case 'put_change_response': {
        const change = this.changes.find(({ id }) => id === payload.changeId);
        if (!change) return 'refused';
        if (lost(change.response)) return 'conflict';
        change.response = next(change.response, { comfort: payload.comfort });
        return 'applied';
      }
      case 'add_measurements':
      case 'report_complaint':
        throw new Error(`the model does not know ${operation.kind}`);
    }
  }

  private running(stage: string): Span | undefined {
    return this.spans.find((span) => span.stage === stage && span.stoppedAt === null);
  }

  /** An inside leg in centimetres; from 40 to 120 it is possible. */
  private measure(id: string, repeats: number[], corrects: string | null): 'applied' | 'refused' {
    if (repeats.some((cm) => cm < 40 || cm > 120)) return 'refused';
    const meanMm = (10 * repeats.reduce((sum, cm) => sum + cm, 0)) / repeats.length;
    this.measurements.set(id, { meanMm, withdrawn: null, corrects });
    return 'applied';
  }
}
