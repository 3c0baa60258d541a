import { Body, Controller, Get, Param, ParseEnumPipe, Post, Put } from '@nestjs/common';
import { ApiParam, ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { newestProcedure, shoes, type Shoe } from '@studio/shoe-work';
import { Describe } from '../../http/documentation.js';
import { IfMatch } from '../../http/preconditions.js';
import { NotFound } from '../../http/problem.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { ShoeWorkStepsService } from './shoe-work-steps.service.js';
import {
  AbandonShoeWorkRequest,
  CureShoeWorkRequest,
  OpenShoeWorkRequest,
  ShoeWorkConsentRequest,
  ShoeWorkPartsRequest,
  ShoeWorkResponse,
  ShoeWorkStepRequest,
} from './shoe-work.dto.js';
import { ShoeWorkService } from './shoe-work.service.js';

const shoePipe = new ParseEnumPipe(
  { left: 'left', right: 'right' },
  { exceptionFactory: () => new NotFound() },
);
const step = 'What cannot follow is refused with the state of the case and the states `allowed` next.';

@ApiTags('Shoe work')
@Controller('v1')
export class ShoeWorkController {
  constructor(
    private readonly shoeWork: ShoeWorkService,
    private readonly steps: ShoeWorkStepsService,
  ) {}

  @Post('fit-sessions/:fitSessionId/shoe-works')
  @Describe({
    id: 'openShoeWork',
    summary: 'Open a case: work on a pair of shoes that cannot be undone',
    description:
      'Refused with what is against it by the shoes (`shoe-work.not-feasible`), with what is not known of them ' +
      '(`shoe-work.cannot-tell`), or with what the screening in force bars (`screenings.not-permitted`).',
    returns: ShoeWorkResponse,
    status: 201,
    problems: [400, 404, 409, 422],
    once: true,
    versioned: true,
  })
  open(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) fitSessionId: string,
    @Body() request: OpenShoeWorkRequest,
  ): Promise<ShoeWorkResponse> {
    return this.shoeWork.open(ctx, fitSessionId, request);
  }

  @Get('shoe-works/:shoeWorkId')
  @Describe({
    id: 'getShoeWork',
    summary: 'A case: consent, steps done and to do with what to beware of, curing, parts, history',
    returns: ShoeWorkResponse,
    problems: [404],
    versioned: true,
  })
  get(@Ctx() ctx: TenantContext, @Param('shoeWorkId', idPipe) id: string): Promise<ShoeWorkResponse> {
    return this.shoeWork.get(ctx, id);
  }

  @Post('shoe-works/:shoeWorkId/consent')
  @Describe({
    id: 'consentToShoeWork',
    summary: 'The client has signed: it cannot be undone, and the warranty is likely void',
    description: `In the newest version of the text; for a minor the guardian signs. ${step}`,
    returns: ShoeWorkResponse,
    problems: [400, 404, 409, 422],
    ifMatch: true,
  })
  consent(
    @Ctx() ctx: TenantContext,
    @Param('shoeWorkId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: ShoeWorkConsentRequest,
  ): Promise<ShoeWorkResponse> {
    return this.shoeWork.consent(ctx, id, version, request);
  }

  @Put('shoe-works/:shoeWorkId/steps/:step/:shoe')
  @ApiParam({ name: 'step', enum: newestProcedure.steps.map(({ id }) => id) })
  @ApiParam({ name: 'shoe', enum: [...shoes] })
  @Describe({
    id: 'doShoeWorkStep',
    summary: 'Write down a step that was done on one shoe; the same one again changes nothing',
    description:
      'In order, shoe by shoe: 409 tells which are `allowed`. Before a sole is changed for good the shoes and the ' +
      'screening are asked again. The last one of both shoes brings the case on.',
    returns: ShoeWorkResponse,
    problems: [400, 404, 409, 422],
    versioned: true,
  })
  doStep(
    @Ctx() ctx: TenantContext,
    @Param('shoeWorkId', idPipe) id: string,
    @Param('step') stepId: string,
    @Param('shoe', shoePipe) shoe: Shoe,
    @Body() request: ShoeWorkStepRequest,
  ): Promise<ShoeWorkResponse> {
    return this.steps.writeDown(ctx, id, { step: stepId, shoe }, request);
  }

  @Post('shoe-works/:shoeWorkId/curing')
  @Describe({
    id: 'cureShoeWork',
    summary: 'The pair lies curing until then; said again, it cures longer',
    description: `The bench is taken for that time. Once it has cured the client and the front desk are told. ${step}`,
    returns: ShoeWorkResponse,
    problems: [400, 404, 409, 422],
    ifMatch: true,
  })
  cure(
    @Ctx() ctx: TenantContext,
    @Param('shoeWorkId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: CureShoeWorkRequest,
  ): Promise<ShoeWorkResponse> {
    return this.steps.cure(ctx, id, version, request);
  }

  @Put('shoe-works/:shoeWorkId/parts')
  @Describe({
    id: 'setShoeWorkParts',
    summary: 'Every part of the price list that was used',
    returns: ShoeWorkResponse,
    problems: [400, 404, 422],
    ifMatch: true,
  })
  setParts(
    @Ctx() ctx: TenantContext,
    @Param('shoeWorkId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: ShoeWorkPartsRequest,
  ): Promise<ShoeWorkResponse> {
    return this.shoeWork.setParts(ctx, id, version, request);
  }

  @Post('shoe-works/:shoeWorkId/abandonment')
  @Describe({
    id: 'abandonShoeWork',
    summary: 'Give it up, with a reason; a bench is free again',
    description: step,
    returns: ShoeWorkResponse,
    problems: [400, 404, 409],
    ifMatch: true,
  })
  abandon(
    @Ctx() ctx: TenantContext,
    @Param('shoeWorkId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: AbandonShoeWorkRequest,
  ): Promise<ShoeWorkResponse> {
    return this.shoeWork.abandon(ctx, id, version, request);
  }
}
