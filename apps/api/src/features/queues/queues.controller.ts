import { Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { PageQuery } from '../../http/paging.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { FailedOrderPage, QueuesResponse } from './queues.dto.js';
import { QueuesService } from './queues.service.js';

const step = 'A step that cannot follow is refused with the state of the order and the steps `allowed`.';

@ApiTags('Queues')
@Controller('v1')
export class QueuesController {
  constructor(private readonly queues: QueuesService) {}

  @Get('queues')
  @Describe({
    id: 'showQueues',
    summary: 'What was promised for later and is not done yet: waiting, late, failed, oldest',
    description: 'Of this studio, read from the record itself: it is right even when the workers are away.',
    returns: QueuesResponse,
  })
  show(@Ctx() ctx: TenantContext): Promise<QueuesResponse> {
    return this.queues.show(ctx);
  }

  @Get('failed-orders')
  @Describe({
    id: 'listFailedOrders',
    summary: 'Orders whose tries are used up, oldest first',
    returns: FailedOrderPage,
    problems: [400],
  })
  listFailed(@Ctx() ctx: TenantContext, @Query() query: PageQuery): Promise<FailedOrderPage> {
    return this.queues.listFailed(ctx, query);
  }

  @Post('failed-orders/:orderId/retry')
  @Describe({
    id: 'retryFailedOrder',
    summary: 'Have it carried out after all, with all its tries anew',
    description: `One that was discarded may be taken up again. ${step}`,
    problems: [404, 409],
  })
  retry(@Ctx() ctx: TenantContext, @Param('orderId', idPipe) id: string): Promise<void> {
    return this.queues.retry(ctx, id);
  }

  @Post('failed-orders/:orderId/discard')
  @Describe({
    id: 'discardFailedOrder',
    summary: 'Set it aside: it need not be done any more',
    description: step,
    problems: [404, 409],
  })
  discard(@Ctx() ctx: TenantContext, @Param('orderId', idPipe) id: string): Promise<void> {
    return this.queues.discard(ctx, id);
  }
}
