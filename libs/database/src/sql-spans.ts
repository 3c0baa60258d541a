import { kindOfFailure, startSpan, type SpanAbout } from '@studio/tracing';
import { EventSubscriber, type AfterQueryEvent, type EntitySubscriberInterface } from 'typeorm';

/** A statement without its values. */
export function sqlSpan(text: string): SpanAbout {
  const verb = /[a-z]+/i.exec(text)?.[0].toUpperCase() ?? 'SQL';
  return {
    name: verb,
    kind: 'client',
    attributes: { 'db.system.name': 'postgresql', 'db.operation.name': verb, 'db.query.text': text },
  };
}

/** Tells each statement of TypeORM's once it has ended. */
@EventSubscriber()
export class SqlSpans implements EntitySubscriberInterface {
  afterQuery({ query, executionTime = 0, error }: AfterQueryEvent): void {
    const span = startSpan({ ...sqlSpan(query), startedAt: new Date(Date.now() - executionTime) });
    span?.end({ failed: error === undefined ? undefined : kindOfFailure(error) });
  }
}
