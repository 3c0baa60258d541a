import { Body, Controller, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  CreateWebhookEndpointRequest,
  eventTypes,
  ListDeliveriesQuery,
  UpdateWebhookEndpointRequest,
  WebhookDeliveryPage,
  WebhookEndpointResponse,
  WebhookEndpointWithSecretResponse,
  WebhookEventTypeResponse,
} from './webhooks.dto.js';
import { WebhooksService } from './webhooks.service.js';

@ApiTags('Webhooks')
@Controller('v1')
export class WebhooksController {
  constructor(private readonly webhooks: WebhooksService) {}

  @Get('webhook-event-types')
  @Describe({
    id: 'listWebhookEventTypes',
    summary: 'What an endpoint can be told of',
    returns: [WebhookEventTypeResponse],
  })
  listEventTypes(): readonly WebhookEventTypeResponse[] {
    return eventTypes;
  }

  @Post('webhook-endpoints')
  @Describe({
    id: 'createWebhookEndpoint',
    summary: 'Have an address told of events; its secret is shown this once',
    description:
      'Messages hold ids only and are signed as the Standard Webhooks specification says; ' +
      'docs/webhooks.md shows how to check one.',
    returns: WebhookEndpointWithSecretResponse,
    status: 201,
    problems: [400, 409],
    versioned: true,
    once: true,
  })
  create(
    @Ctx() ctx: TenantContext,
    @Body() request: CreateWebhookEndpointRequest,
  ): Promise<WebhookEndpointWithSecretResponse> {
    return this.webhooks.create(ctx, request);
  }

  @Get('webhook-endpoints')
  @Describe({
    id: 'listWebhookEndpoints',
    summary: 'The endpoints and how they are doing; twenty at most',
    returns: [WebhookEndpointResponse],
  })
  list(@Ctx() ctx: TenantContext): Promise<WebhookEndpointResponse[]> {
    return this.webhooks.list(ctx);
  }

  @Get('webhook-endpoints/:endpointId')
  @Describe({
    id: 'getWebhookEndpoint',
    summary: 'One endpoint',
    returns: WebhookEndpointResponse,
    problems: [404],
    versioned: true,
  })
  get(@Ctx() ctx: TenantContext, @Param('endpointId', idPipe) id: string): Promise<WebhookEndpointResponse> {
    return this.webhooks.get(ctx, id);
  }

  @Patch('webhook-endpoints/:endpointId')
  @Describe({
    id: 'updateWebhookEndpoint',
    summary: 'Change, disable or enable an endpoint',
    description: 'Fields that are absent stay as they are.',
    returns: WebhookEndpointResponse,
    problems: [400, 404],
    ifMatch: true,
  })
  update(
    @Ctx() ctx: TenantContext,
    @Param('endpointId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: UpdateWebhookEndpointRequest,
  ): Promise<WebhookEndpointResponse> {
    return this.webhooks.update(ctx, id, version, request);
  }

  @Post('webhook-endpoints/:endpointId/secret')
  @Describe({
    id: 'renewWebhookSecret',
    summary: 'A new secret, shown this once',
    description: 'For a day messages carry a signature by the old one as well, so that no message is lost.',
    returns: WebhookEndpointWithSecretResponse,
    problems: [404],
    ifMatch: true,
  })
  renewSecret(
    @Ctx() ctx: TenantContext,
    @Param('endpointId', idPipe) id: string,
    @IfMatch() version: number,
  ): Promise<WebhookEndpointWithSecretResponse> {
    return this.webhooks.renewSecret(ctx, id, version);
  }

  @Get('webhook-endpoints/:endpointId/deliveries')
  @Describe({
    id: 'listWebhookDeliveries',
    summary: 'What an endpoint was told, and how it went; newest first',
    returns: WebhookDeliveryPage,
    problems: [400, 404],
  })
  listDeliveries(
    @Ctx() ctx: TenantContext,
    @Param('endpointId', idPipe) endpointId: string,
    @Query() query: ListDeliveriesQuery,
  ): Promise<WebhookDeliveryPage> {
    return this.webhooks.listDeliveries(ctx, endpointId, query);
  }

  @Post('webhook-deliveries/:deliveryId/replay')
  @Describe({
    id: 'replayWebhookDelivery',
    summary: 'Deliver it again, delivered or not; the message keeps its id',
    problems: [404, 409],
  })
  replay(@Ctx() ctx: TenantContext, @Param('deliveryId', idPipe) id: string): Promise<void> {
    return this.webhooks.replay(ctx, id);
  }
}
