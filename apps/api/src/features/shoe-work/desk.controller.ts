import { Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { ListShoeWorksQuery, ShoeWorkAtDeskPage, ShoeWorkAtDeskResponse } from './desk.dto.js';
import { ShoeWorkDeskService } from './desk.service.js';

@ApiTags('Shoe work')
@Controller('v1/shoe-works')
export class ShoeWorkDeskController {
  constructor(private readonly desk: ShoeWorkDeskService) {}

  @Get()
  @Describe({
    id: 'listShoeWorks',
    summary: 'Cases of shoe work as the front desk sees them: whose, how far, and when to collect',
    returns: ShoeWorkAtDeskPage,
    problems: [400],
  })
  list(@Ctx() ctx: TenantContext, @Query() query: ListShoeWorksQuery): Promise<ShoeWorkAtDeskPage> {
    return this.desk.list(ctx, query);
  }

  @Get(':shoeWorkId/at-the-desk')
  @Describe({
    id: 'getShoeWorkAtDesk',
    summary: 'A case as the front desk sees it',
    returns: ShoeWorkAtDeskResponse,
    problems: [404],
    versioned: true,
  })
  get(@Ctx() ctx: TenantContext, @Param('shoeWorkId', idPipe) id: string): Promise<ShoeWorkAtDeskResponse> {
    return this.desk.get(ctx, id);
  }

  @Post(':shoeWorkId/collection')
  @Describe({
    id: 'collectShoeWork',
    summary: 'The shoes go home; the first ride is asked after',
    description:
      'Not before bolts and release were checked at the hand-over, of both shoes: 409 names the steps that are missing.',
    returns: ShoeWorkAtDeskResponse,
    problems: [404, 409],
    ifMatch: true,
  })
  collect(
    @Ctx() ctx: TenantContext,
    @Param('shoeWorkId', idPipe) id: string,
    @IfMatch() version: number,
  ): Promise<ShoeWorkAtDeskResponse> {
    return this.desk.collect(ctx, id, version);
  }
}
