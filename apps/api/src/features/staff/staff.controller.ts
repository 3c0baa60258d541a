import { Body, Controller, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { PageQuery } from '../../http/paging.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  CreateStaffRequest,
  StaffPage,
  StaffResponse,
  StudioResponse,
  UpdateStaffRequest,
} from './staff.dto.js';
import { StaffService } from './staff.service.js';

@ApiTags('Studio')
@Controller('v1')
export class StaffController {
  constructor(private readonly staff: StaffService) {}

  @Get('studio')
  @Describe({ id: 'getStudio', summary: 'The studio of the signed-in person', returns: StudioResponse })
  studio(@Ctx() ctx: TenantContext): Promise<StudioResponse> {
    return this.staff.studio(ctx);
  }

  @Get('staff')
  @Describe({ id: 'listStaff', summary: 'The people of the studio', returns: StaffPage, problems: [400] })
  list(@Ctx() ctx: TenantContext, @Query() query: PageQuery): Promise<StaffPage> {
    return this.staff.list(ctx, query);
  }

  @Post('staff')
  @Describe({
    id: 'createStaff',
    summary: 'Add a person to the studio',
    returns: StaffResponse,
    status: 201,
    problems: [400, 409],
    versioned: true,
    once: true,
  })
  create(@Ctx() ctx: TenantContext, @Body() request: CreateStaffRequest): Promise<StaffResponse> {
    return this.staff.create(ctx, request);
  }

  @Post('staff/:staffId/invitation')
  @Describe({
    id: 'inviteStaff',
    summary: 'Mail the invitation once more',
    problems: [404, 409],
  })
  invite(@Ctx() ctx: TenantContext, @Param('staffId', idPipe) id: string): Promise<void> {
    return this.staff.invite(ctx, id);
  }

  @Patch('staff/:staffId')
  @Describe({
    id: 'updateStaff',
    summary: "Change a person's name, roles or skills, or keep them from signing in",
    description: 'Lost roles and sign-ins end within ten minutes, when the access token does.',
    returns: StaffResponse,
    problems: [400, 404, 409],
    ifMatch: true,
  })
  update(
    @Ctx() ctx: TenantContext,
    @Param('staffId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: UpdateStaffRequest,
  ): Promise<StaffResponse> {
    return this.staff.update(ctx, id, version, request);
  }
}
