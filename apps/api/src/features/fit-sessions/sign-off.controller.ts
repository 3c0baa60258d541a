import { Body, Controller, Get, Param, Post, Put } from '@nestjs/common';
import { ApiBody, ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { FitSessionResponse } from './fit-sessions.dto.js';
import {
  AdviceRequest,
  AdviceResponse,
  AmendmentRequest,
  SignSessionRequest,
  BeforeSigningResponse,
} from './sign-off.dto.js';
import { SignOffService } from './sign-off.service.js';

@ApiTags('Fit sessions')
@Controller('v1/fit-sessions/:fitSessionId')
export class SignOffController {
  constructor(private readonly signOff: SignOffService) {}

  @Get('sign-off')
  @Describe({
    id: 'getSignOff',
    summary: 'What a signature waits for, what the rider will be told, and how it would be followed up',
    returns: BeforeSigningResponse,
    problems: [404],
  })
  get(@Ctx() ctx: TenantContext, @Param('fitSessionId', idPipe) id: string): Promise<BeforeSigningResponse> {
    return this.signOff.get(ctx, id);
  }

  @Get('advice')
  @Describe({
    id: 'getAdvice',
    summary: 'What the rider is told of the first weeks',
    returns: AdviceResponse,
    problems: [404],
    versioned: true,
  })
  getAdvice(@Ctx() ctx: TenantContext, @Param('fitSessionId', idPipe) id: string): Promise<AdviceResponse> {
    return this.signOff.getAdvice(ctx, id);
  }

  @Put('advice')
  @Describe({
    id: 'putAdvice',
    summary: 'Write the advice for this rider, before the session is signed',
    returns: AdviceResponse,
    problems: [400, 404, 409],
    ifMatch: true,
  })
  putAdvice(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: AdviceRequest,
  ): Promise<AdviceResponse> {
    return this.signOff.putAdvice(ctx, id, version, request);
  }

  @Post('sign-off')
  @ApiBody({ type: SignSessionRequest, required: false })
  @Describe({
    id: 'signFitSession',
    summary: 'Sign the record: it is final from then on, and the follow-ups are scheduled',
    returns: FitSessionResponse,
    problems: [400, 404, 409, 422],
  })
  sign(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) id: string,
    @Body() request: SignSessionRequest,
  ): Promise<FitSessionResponse> {
    return this.signOff.sign(ctx, id, request);
  }

  @Post('amendments')
  @Describe({
    id: 'amendFitSession',
    summary: 'Add a correction beside a signed record',
    description: 'It is signed too, and shown with the record and on every fit sheet made from then on.',
    returns: FitSessionResponse,
    status: 201,
    problems: [400, 404, 409],
    once: true,
  })
  amend(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) id: string,
    @Body() request: AmendmentRequest,
  ): Promise<FitSessionResponse> {
    return this.signOff.amend(ctx, id, request);
  }
}
