import { setTracing } from './tracing.js';

/**
 * Traces by OpenTelemetry, exported by OTLP over HTTP; none, and nothing of it loaded, without an address.
 *
 * @param options.url for example http://127.0.0.1:4318/v1/traces
 */
export async function startTracing({
  service,
  url,
}: {
  service: string;
  url: string | undefined;
}): Promise<void> {
  if (url === undefined) return;
  const { OpenTelemetry } = await import('./open-telemetry.js');
  setTracing(new OpenTelemetry(service, url));
}
