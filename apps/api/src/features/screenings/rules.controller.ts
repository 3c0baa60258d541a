import { Body, Controller, Get, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { RuleSetResponse, SignOffRequest } from './rules.dto.js';
import { RulesService } from './rules.service.js';

@ApiTags('Screening')
@Controller('v1/rules')
export class RulesController {
  constructor(private readonly rules: RulesService) {}

  @Get()
  @Describe({
    id: 'listRules',
    summary: 'The screening rules in use with their sources, and which clinicians signed them',
    returns: RuleSetResponse,
  })
  list(@Ctx() ctx: TenantContext): Promise<RuleSetResponse> {
    return this.rules.list(ctx);
  }

  @Post('sign-offs')
  @Describe({
    id: 'signOffRules',
    summary: 'Record that a clinician signed the rules in use',
    returns: RuleSetResponse,
    status: 201,
    problems: [400, 409, 422],
    once: true,
  })
  signOff(@Ctx() ctx: TenantContext, @Body() request: SignOffRequest): Promise<RuleSetResponse> {
    return this.rules.signOff(ctx, request);
  }
}
