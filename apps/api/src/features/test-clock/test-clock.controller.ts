import { Body, Controller, Inject, Post } from '@nestjs/common';
import { ApiProperty, ApiTags } from '@nestjs/swagger';
import type { ApiConfig } from '@studio/config';
import { DataSource } from 'typeorm';
import { Describe } from '../../http/documentation.js';
import { IntField } from '../../http/fields.js';
import { ApiConfigToken } from '../../http/http.module.js';
import { ApiError } from '../../http/problem.js';
import { moveClock } from './test-clock.queries.js';

class AdvanceRequest {
  @IntField({
    min: 1,
    max: 31_622_400,
    description: 'Seconds to move the clock forward.',
    example: 1_209_600,
  })
  seconds: number;
}

class ClockResponse {
  @ApiProperty({ format: 'date-time' })
  now: string;
}

class NoTestClock extends ApiError {
  readonly code = 'test-clock.off';
  readonly status = 404;
  readonly title = 'This server runs on real time';
}

@ApiTags('Test clock')
@Controller('v1/test-clock')
export class TestClockController {
  constructor(
    private readonly dataSource: DataSource,
    @Inject(ApiConfigToken) private readonly config: ApiConfig,
  ) {}

  @Post('advance')
  @Describe({
    id: 'advanceTestClock',
    summary: 'Let weeks pass (demo and tests only)',
    description:
      'For all studios of this server. Refused unless the server was started with a test clock; production never is.',
    returns: ClockResponse,
    problems: [400, 404],
  })
  async advance(@Body() request: AdvanceRequest): Promise<ClockResponse> {
    if (!this.config.testClock) throw new NoTestClock();
    return { now: (await moveClock(this.dataSource, request.seconds)).toISOString() };
  }
}
