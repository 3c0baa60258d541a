import { Body, Controller, Param, Post, Put } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  ChangeRequest,
  ChangeResponse,
  ComplaintRequest,
  ComplaintResponse,
  RiderResponseRequest,
} from './changes.dto.js';
import { SessionWrites } from './session-writes.js';
import { addChange, putChangeResponse } from './writes/add-change.js';
import { reportComplaint } from './writes/report-complaint.js';

@ApiTags('Changes')
@Controller('v1/fit-sessions/:fitSessionId')
export class ChangesController {
  constructor(private readonly writes: SessionWrites) {}

  @Post('changes')
  @Describe({
    id: 'addChange',
    summary: 'Record a change on the bike or under the foot: what, from what to what, and why',
    description:
      'One change at a time is the rule; several at once must be marked. 409 `screenings.not-permitted` while a finding ' +
      'bars this kind of change.',
    returns: ChangeResponse,
    status: 201,
    problems: [400, 404, 409, 422],
    once: true,
  })
  add(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) id: string,
    @Body() request: ChangeRequest,
  ): Promise<ChangeResponse> {
    return this.writes.now(ctx, id, addChange, request);
  }

  @Put('changes/:changeId/response')
  @Describe({
    id: 'putChangeResponse',
    summary: 'What the rider says right after a change, and what was measured then',
    returns: ChangeResponse,
    problems: [400, 404, 409],
  })
  respond(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) id: string,
    @Param('changeId', idPipe) changeId: string,
    @Body() request: RiderResponseRequest,
  ): Promise<ChangeResponse> {
    return this.writes.now(ctx, id, putChangeResponse, { ...request, changeId });
  }

  @Post('complaints')
  @Describe({
    id: 'reportComplaint',
    summary: 'Report what the rider complains of on the bike: it is screened at once',
    description:
      'What is raised is in the answer, opens a referral case where a clinician should see it, and bars further changes ' +
      'of the kinds it names until it is cleared.',
    returns: ComplaintResponse,
    status: 201,
    problems: [400, 404, 409, 422],
    once: true,
  })
  complain(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) id: string,
    @Body() request: ComplaintRequest,
  ): Promise<ComplaintResponse> {
    return this.writes.now(ctx, id, reportComplaint, request);
  }
}
