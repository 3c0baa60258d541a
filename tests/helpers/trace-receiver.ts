import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { json } from 'node:stream/consumers';

export interface ReceivedSpan {
  readonly service: string;
  readonly name: string;
  readonly traceId: string;
  readonly spanId: string;
  /** Empty where it begins a trace. */
  readonly parentSpanId: string;
  readonly attributes: Readonly<Record<string, unknown>>;
  /** As it came over the wire. */
  readonly text: string;
}

export interface TraceReceiver {
  readonly url: string;
  readonly spans: ReceivedSpan[];
  close: () => Promise<void>;
}

type Attributes = readonly { key: string; value: Record<string, unknown> }[];

/** What a process exports (opentelemetry-proto, trace.proto in its JSON mapping), as far as it is looked at. */
interface Export {
  resourceSpans: {
    resource: { attributes: Attributes };
    scopeSpans: {
      spans: {
        name: string;
        traceId: string;
        spanId: string;
        parentSpanId?: string;
        attributes: Attributes;
      }[];
    }[];
  }[];
}

/** A collector of traces on loopback: OTLP over HTTP. */
export async function startTraceReceiver(): Promise<TraceReceiver> {
  const spans: ReceivedSpan[] = [];
  const server = createServer((request, response) => {
    void json(request).then((said) => {
      for (const { resource, scopeSpans } of (said as Export).resourceSpans) {
        const service = String(valuesOf(resource.attributes)['service.name']);
        for (const span of scopeSpans.flatMap((scope) => scope.spans)) {
          const { name, traceId, spanId, parentSpanId = '', attributes } = span;
          const text = JSON.stringify(span);
          spans.push({
            service,
            name,
            traceId,
            spanId,
            parentSpanId,
            attributes: valuesOf(attributes),
            text,
          });
        }
      }
      response.writeHead(200, { 'content-type': 'application/json' }).end('{}');
    });
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/v1/traces`,
    spans,
    close: async () => {
      server.closeAllConnections();
      server.close();
      await once(server, 'close');
    },
  };
}

const valuesOf = (attributes: Attributes): Record<string, unknown> =>
  Object.fromEntries(attributes.map(({ key, value }) => [key, Object.values(value)[0]]));
