import type { Attributes } from '@opentelemetry/api';

/** What is told of a span: never a name, an answer, a value of a query or an address with a link in it. */
export interface SpanAbout {
  /** Of few values, such as a route or the name of a job. */
  readonly name: string;
  /** A request taken and a job carried out begin a trace of their own; everything else is only told as part of one. */
  readonly kind: 'server' | 'consumer' | 'producer' | 'client' | 'internal';
  readonly attributes?: Attributes;
  /** A W3C traceparent, when what it is a part of happened in another process. */
  readonly parent?: string | undefined;
  /** Now when absent. */
  readonly startedAt?: Date;
}

export interface OpenSpan {
  readonly traceId: string;
  readonly traceparent: string;
  /** Spans that `work` starts, now or after waiting, are parts of this one. */
  within<T>(work: () => T): T;
  /** @param failed the kind of failure, not its message */
  end(result?: { name?: string; attributes?: Attributes; failed?: string | undefined }): void;
}

/** What OpenTelemetry does for us while traces are made. */
export interface Tracing {
  startSpan(about: SpanAbout): OpenSpan | undefined;
  note(attributes: Attributes, failed?: string): void;
  current(): Pick<OpenSpan, 'traceId' | 'traceparent'> | undefined;
  stop(): Promise<void>;
}

/** Nothing is told, and nothing of OpenTelemetry is loaded, while this is undefined. */
let tracing: Tracing | undefined;

export function setTracing(started: Tracing): void {
  tracing = started;
}

/** Hands over what is not exported yet; no spans are told any more. */
export async function stopTracing(): Promise<void> {
  const stopped = tracing;
  tracing = undefined;
  await stopped?.stop();
}

export const isTracing = (): boolean => tracing !== undefined;

/** To be ended by the caller. Undefined when no traces are made, or there is none that it would be a part of. */
export const startSpan = (about: SpanAbout): OpenSpan | undefined => tracing?.startSpan(about);

/** Tells how long `work` takes and, if it throws, by what kind of failure. */
export async function inSpan<T>(about: SpanAbout, work: () => Promise<T>): Promise<T> {
  const span = startSpan(about);
  if (!span) return work();
  try {
    const result = await span.within(work);
    span.end();
    return result;
  } catch (error) {
    span.end({ failed: kindOfFailure(error) });
    throw error;
  }
}

/** Adds to the span of what is being done now. */
export function noteOnSpan(attributes: Attributes, failed?: string): void {
  tracing?.note(attributes, failed);
}

/** For whoever goes on with what is being done now; undefined when nobody traces it. */
export const traceparent = (): string | undefined => tracing?.current()?.traceparent;

/** For log lines. */
export function traceIds(): { traceId?: string } {
  const span = tracing?.current();
  return span ? { traceId: span.traceId } : {};
}

/** PostgreSQL's and Node's codes tell more than the names of their errors; messages may tell of people. */
export function kindOfFailure(error: unknown): string {
  if (!(error instanceof Error)) return typeof error;
  const { code } = error as { code?: unknown };
  return typeof code === 'string' && /^\w+$/.test(code) ? code : error.name;
}
