import { ApiProperty } from '@nestjs/swagger';
import { visitStages, type VisitStage } from '@studio/database';
import { EnumField, InstantField, IntField, TextField } from '../../http/fields.js';
import { basedOnField } from './writes/based-on.js';

export class PlaceRequest {
  @EnumField(visitStages)
  stage: VisitStage;

  @TextField({
    optional: true,
    nullable: true,
    max: 200,
    description: 'Where in the stage, in words of the program or the fitter.',
    example: 'Left foot, after the first shim.',
  })
  note?: string | null;

  @IntField(basedOnField)
  basedOn?: number;
}

export class PlaceResponse {
  @ApiProperty({ enum: visitStages })
  stage: VisitStage;

  @ApiProperty({ type: String, nullable: true, example: 'Left foot, after the first shim.' })
  note: string | null;

  @ApiProperty({ example: 1 })
  version: number;
}

export class TimerRequest {
  @InstantField({ optional: true, description: 'When it was; now when absent.' })
  at?: string;
}

export class SpanResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ enum: visitStages })
  stage: VisitStage;

  @ApiProperty({ format: 'date-time' })
  startedAt: string;

  @ApiProperty({ type: String, format: 'date-time', nullable: true, description: 'Null: running.' })
  stoppedAt: string | null;
}

export class MissingResponse {
  @ApiProperty({ enum: visitStages })
  stage: VisitStage;

  @ApiProperty({ description: 'Stable, for programs.', example: 'position_found' })
  what: string;

  @ApiProperty({ example: 'The position as found.' })
  says: string;
}

export class StageResponse {
  @ApiProperty({ enum: visitStages })
  stage: VisitStage;

  @ApiProperty({ description: 'Of all spans that ended.', example: 1260 })
  seconds: number;

  @ApiProperty({ example: false })
  running: boolean;

  @ApiProperty({ type: [SpanResponse] })
  spans: SpanResponse[];

  @ApiProperty({ type: [MissingResponse], description: 'What of this stage a signature still waits for.' })
  missing: MissingResponse[];
}

export class FlowResponse {
  @ApiProperty({ type: PlaceResponse, nullable: true, description: 'Where one was last.' })
  place: PlaceResponse | null;

  @ApiProperty({ type: [StageResponse], description: 'In their usual order, which nothing forces.' })
  stages: StageResponse[];
}
