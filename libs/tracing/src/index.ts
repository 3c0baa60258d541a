export { startTracing } from './start-tracing.js';
export {
  inSpan,
  isTracing,
  kindOfFailure,
  noteOnSpan,
  startSpan,
  stopTracing,
  traceIds,
  traceparent,
  type OpenSpan,
  type SpanAbout,
} from './tracing.js';
