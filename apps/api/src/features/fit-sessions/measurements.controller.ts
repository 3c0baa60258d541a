import { Body, Controller, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  CorrectionRequest,
  MeasurementRequest,
  MeasurementResponse,
  MeasurementsRequest,
  MeasurementsResponse,
  WithdrawalRequest,
} from './measurements.dto.js';
import { SessionWrites } from './session-writes.js';
import { addMeasurement, addMeasurements } from './writes/add-measurements.js';
import { correctMeasurement, withdrawMeasurement } from './writes/withdraw-measurement.js';

@ApiTags('Measurements')
@Controller('v1/fit-sessions/:fitSessionId')
export class MeasurementsController {
  constructor(private readonly writes: SessionWrites) {}

  @Post('measurements')
  @Describe({
    id: 'addMeasurement',
    summary: 'Record one to five readings of one thing',
    description: 'Impossible values are refused with 422; implausible ones are kept with a warning.',
    returns: MeasurementResponse,
    status: 201,
    problems: [400, 404, 409, 422],
    once: true,
  })
  add(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) id: string,
    @Body() request: MeasurementRequest,
  ): Promise<MeasurementResponse> {
    return this.writes.now(ctx, id, addMeasurement, request);
  }

  @Post('measurement-batches')
  @Describe({
    id: 'addMeasurements',
    summary: 'Record several measurements, all or none',
    description:
      '422 `fit-sessions.measurements-refused` names every fault by its item, such as `items.2.repeats.0`.',
    returns: MeasurementsResponse,
    status: 201,
    problems: [400, 404, 409, 422],
    once: true,
  })
  addSeveral(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) id: string,
    @Body() request: MeasurementsRequest,
  ): Promise<MeasurementsResponse> {
    return this.writes.now(ctx, id, addMeasurements, request);
  }

  @Post('measurements/:measurementId/withdrawal')
  @Describe({
    id: 'withdrawMeasurement',
    summary: 'Say that a measurement does not hold, and why; it stays to be seen',
    description: '409 `fit-sessions.changed-meanwhile` when it was withdrawn or corrected already.',
    returns: MeasurementResponse,
    problems: [400, 404, 409],
    once: true,
  })
  withdraw(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) id: string,
    @Param('measurementId', idPipe) measurementId: string,
    @Body() request: WithdrawalRequest,
  ): Promise<MeasurementResponse> {
    return this.writes.now(ctx, id, withdrawMeasurement, { ...request, measurementId });
  }

  @Post('measurements/:measurementId/correction')
  @Describe({
    id: 'correctMeasurement',
    summary: 'Put another measurement in place of one that does not hold, with the reason',
    description: '409 `fit-sessions.changed-meanwhile` when it was withdrawn or corrected already.',
    returns: MeasurementResponse,
    status: 201,
    problems: [400, 404, 409, 422],
    once: true,
  })
  correct(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) id: string,
    @Param('measurementId', idPipe) measurementId: string,
    @Body() request: CorrectionRequest,
  ): Promise<MeasurementResponse> {
    return this.writes.now(ctx, id, correctMeasurement, { ...request, measurementId });
  }
}
