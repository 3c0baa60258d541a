import { ApiProperty, PartialType } from '@nestjs/swagger';
import { deliveryStates, disabledReasons, type DeliveryState, type WebhookEndpoint } from '@studio/database';
import { webhookEvents, webhookEventTypes, type WebhookEventType } from '@studio/job-contracts';
import { BooleanField, EnumField, EnumListField, TextField } from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';
import type { DeliveryRecord } from './webhooks.queries.js';

export class CreateWebhookEndpointRequest {
  @TextField({
    max: 2000,
    description: 'https only; its host must not lead into a private network.',
    example: 'https://records.example.org/hooks/studio',
  })
  url: string;

  @EnumListField(webhookEventTypes, { description: 'What it is told of.', example: ['appointment.booked'] })
  events: WebhookEventType[];

  @TextField({ optional: true, nullable: true, max: 200, example: 'The club’s training calendar' })
  description?: string | null;
}

export class UpdateWebhookEndpointRequest extends PartialType(CreateWebhookEndpointRequest, {
  skipNullProperties: false,
}) {
  @BooleanField({ optional: true, description: 'False: it is told of nothing until it is enabled again.' })
  enabled?: boolean;
}

export class WebhookEndpointResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'https://records.example.org/hooks/studio' })
  url: string;

  @ApiProperty({ enum: webhookEventTypes, isArray: true })
  events: WebhookEventType[];

  @ApiProperty({ type: String, nullable: true, example: 'The club’s training calendar' })
  description: string | null;

  @ApiProperty({ example: true })
  enabled: boolean;

  @ApiProperty({
    enum: disabledReasons,
    nullable: true,
    description: 'The owner did; it failed for three days; or it answered 410.',
    example: null,
  })
  disabledBecause: (typeof disabledReasons)[number] | null;

  @ApiProperty({
    type: String,
    format: 'date-time',
    nullable: true,
    description: 'Since when every attempt has failed.',
  })
  failingSince: string | null;

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;

  static of(row: WebhookEndpoint): WebhookEndpointResponse {
    const { id, url, description, disabledBecause, failingSince, version } = row;
    return {
      ...{ id, url, description, disabledBecause, version },
      events: row.events as WebhookEventType[],
      enabled: row.disabledAt === null,
      failingSince: failingSince?.toISOString() ?? null,
    };
  }
}

export class WebhookEndpointWithSecretResponse extends WebhookEndpointResponse {
  @ApiProperty({
    description: 'What its messages are signed with. Shown this once.',
    example: 'whsec_c2lnbmVkIHdpdGggdGhpcywgYW5kIHNob3duIG9ubHkgb25jZQ==',
  })
  secret: string;
}

export class WebhookEventTypeResponse {
  @ApiProperty({ enum: webhookEventTypes })
  type: WebhookEventType;

  @ApiProperty({ example: 'A visit was booked.' })
  says: string;

  @ApiProperty({ description: 'The name its id has in `data`.', example: 'appointmentId' })
  id: string;
}

export const eventTypes: readonly WebhookEventTypeResponse[] = webhookEventTypes.map((type) => ({
  type,
  ...webhookEvents[type],
}));

export class ListDeliveriesQuery extends PageQuery {
  @EnumField(deliveryStates, { optional: true })
  state?: DeliveryState;
}

export class WebhookDeliveryResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid', description: 'The same in every attempt: the header `webhook-id`.' })
  eventId: string;

  @ApiProperty({ enum: webhookEventTypes })
  type: WebhookEventType;

  @ApiProperty({ format: 'uuid', description: 'The record the event is about.' })
  subjectId: string;

  @ApiProperty({ enum: deliveryStates })
  state: DeliveryState;

  @ApiProperty({ format: 'date-time' })
  occurredAt: string;

  @ApiProperty({ type: 'integer', example: 1 })
  attempts: number;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  lastTriedAt: string | null;

  @ApiProperty({
    type: 'integer',
    nullable: true,
    description: 'HTTP status of the last answer; null when there was none.',
    example: 204,
  })
  lastStatus: number | null;

  @ApiProperty({ type: 'integer', nullable: true, description: 'Milliseconds.', example: 84 })
  lastTookMs: number | null;

  @ApiProperty({ type: String, nullable: true, example: 'HTTP 503' })
  lastError: string | null;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  deliveredAt: string | null;

  static of(row: DeliveryRecord): WebhookDeliveryResponse {
    const { occurredAt, lastTriedAt, deliveredAt, ...rest } = row;
    return {
      ...rest,
      occurredAt: occurredAt.toISOString(),
      lastTriedAt: lastTriedAt?.toISOString() ?? null,
      deliveredAt: deliveredAt?.toISOString() ?? null,
    };
  }
}

export class WebhookDeliveryPage {
  @ApiProperty({ type: [WebhookDeliveryResponse] })
  items: WebhookDeliveryResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}
