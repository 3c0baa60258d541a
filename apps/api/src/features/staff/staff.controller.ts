import { Body, Controller, Get, Param, Patch, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Allow, AllowStaff, InPerson } from '../../http/access.js';
import { Describe } from '../../http/documentation.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { CreateStaffRequest, StaffResponse, StudioResponse, UpdateStaffRequest } from './staff.dto.js';
import { StaffService } from './staff.service.js';

@ApiTags('Studio')
@Controller('v1')
export class StaffController {
  constructor(private readonly staff: StaffService) {}

  @Get('studio')
  @AllowStaff()
  @Describe({ id: 'getStudio', summary: 'The studio of the signed-in person', returns: StudioResponse })
  studio(@Ctx() ctx: TenantContext): Promise<StudioResponse> {
    return this.staff.studio(ctx);
  }

  @Get('staff')
  @AllowStaff()
  @Describe({ id: 'listStaff', summary: 'The people of the studio', returns: [StaffResponse] })
  list(@Ctx() ctx: TenantContext): Promise<StaffResponse[]> {
    return this.staff.list(ctx);
  }

  @Post('staff')
  @Allow('owner')
  @InPerson()
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
  @Allow('owner')
  @InPerson()
  @Describe({
    id: 'inviteStaff',
    summary: 'Mail the invitation once more',
    problems: [404, 409],
  })
  invite(@Ctx() ctx: TenantContext, @Param('staffId', idPipe) id: string): Promise<void> {
    return this.staff.invite(ctx, id);
  }

  @Patch('staff/:staffId')
  @Allow('owner')
  @InPerson()
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
