import {
  context,
  defaultTextMapGetter,
  ROOT_CONTEXT,
  SpanKind,
  SpanStatusCode,
  trace,
  type Attributes,
  type Context,
  type Span,
  type Tracer,
} from '@opentelemetry/api';
import { setGlobalErrorHandler, W3CTraceContextPropagator } from '@opentelemetry/core';
import { OTLPTraceExporter } from '@opentelemetry/exporter-trace-otlp-http';
import { resourceFromAttributes } from '@opentelemetry/resources';
import { BatchSpanProcessor, NodeTracerProvider } from '@opentelemetry/sdk-trace-node';
import type { OpenSpan, SpanAbout, Tracing } from './tracing.js';

/** A collector that is away keeps no process from ending. */
const stopWithinMs = 3_000;

const kinds: Readonly<Record<SpanAbout['kind'], SpanKind>> = {
  server: SpanKind.SERVER,
  consumer: SpanKind.CONSUMER,
  producer: SpanKind.PRODUCER,
  client: SpanKind.CLIENT,
  internal: SpanKind.INTERNAL,
};

const w3c = new W3CTraceContextPropagator();

/** The official SDK; how much it samples, gathers and waits is said by its own variables of the environment. */
export class OpenTelemetry implements Tracing {
  private readonly provider: NodeTracerProvider;
  private readonly tracer: Tracer;

  constructor(service: string, url: string) {
    setGlobalErrorHandler((error) => {
      process.emitWarning(`Traces were not taken: ${error instanceof Error ? error.name : 'unknown'}`);
    });
    this.provider = new NodeTracerProvider({
      resource: resourceFromAttributes({ 'service.name': service }),
      spanProcessors: [new BatchSpanProcessor(new OTLPTraceExporter({ url }))],
    });
    this.provider.register({ propagator: null });
    this.tracer = trace.getTracer('fitting-studio');
  }

  startSpan({ name, kind, attributes = {}, parent, startedAt }: SpanAbout): OpenSpan | undefined {
    const within = parent === undefined ? context.active() : contextOf(parent);
    const begins = kind === 'server' || kind === 'consumer';
    if (!begins && !trace.getSpan(within)) return undefined;
    const options = { kind: kinds[kind], attributes, ...(startedAt && { startTime: startedAt }) };
    const span = this.tracer.startSpan(name, options, within);
    return {
      ...idsOf(span),
      within: (work) => context.with(trace.setSpan(within, span), work),
      end: (result = {}) => {
        if (result.name !== undefined) span.updateName(result.name);
        tell(span, result.attributes ?? {}, result.failed);
        span.end();
      },
    };
  }

  note(attributes: Attributes, failed?: string): void {
    const span = trace.getActiveSpan();
    if (span) tell(span, attributes, failed);
  }

  current(): Pick<OpenSpan, 'traceId' | 'traceparent'> | undefined {
    const span = trace.getActiveSpan();
    return span && idsOf(span);
  }

  async stop(): Promise<void> {
    let timer: NodeJS.Timeout | undefined;
    const tooLate = new Promise<void>((resolve) => {
      timer = setTimeout(resolve, stopWithinMs);
    });
    await Promise.race([this.provider.shutdown().catch(() => undefined), tooLate]);
    clearTimeout(timer);
  }
}

function tell(span: Span, attributes: Attributes, failed: string | undefined): void {
  span.setAttributes(attributes);
  if (failed === undefined) return;
  span.setAttribute('error.type', failed);
  span.setStatus({ code: SpanStatusCode.ERROR });
}

/** Whose spans go on with another process's; one that is malformed begins anew. */
const contextOf = (traceparent: string): Context =>
  w3c.extract(ROOT_CONTEXT, { traceparent }, defaultTextMapGetter);

/** W3C Trace Context, level 1, 3.2 "Traceparent Header". */
function idsOf(span: Span): Pick<OpenSpan, 'traceId' | 'traceparent'> {
  const { traceId, spanId, traceFlags } = span.spanContext();
  const flags = traceFlags.toString(16).padStart(2, '0');
  return { traceId, traceparent: `00-${traceId}-${spanId}-${flags}` };
}
