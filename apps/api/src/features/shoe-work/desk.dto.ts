import { ApiProperty } from '@nestjs/swagger';
import { shoeWorkStates, type ShoeWorkState } from '@studio/shoe-work';
import { EnumField, UuidField } from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';
import { ShoeWorkPartResponse } from './shoe-work.dto.js';

export class ListShoeWorksQuery extends PageQuery {
  @UuidField({ optional: true, description: 'Of this client only.' })
  clientId?: string;

  @UuidField({ optional: true, description: 'Of this fit only.' })
  fitSessionId?: string;

  @EnumField(shoeWorkStates, { optional: true, example: 'to_collect' })
  state?: ShoeWorkState;
}

/** What the front desk has to know: nothing of what was found, measured or written. */
export class ShoeWorkAtDeskResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  clientId: string;

  @ApiProperty({ example: 'Marta Ferreira' })
  clientName: string;

  @ApiProperty({ example: 'Summer shoes', description: 'Which pair.' })
  shoes: string;

  @ApiProperty({ enum: shoeWorkStates })
  state: ShoeWorkState;

  @ApiProperty({ format: 'date-time' })
  openedAt: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true, description: 'The bench it cures on.' })
  benchId: string | null;

  @ApiProperty({
    type: String,
    format: 'date-time',
    nullable: true,
    description: 'From when the client may come: for the hand-over, with bike and pedals.',
  })
  toCollectAt: string | null;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  collectedAt: string | null;

  @ApiProperty({ type: [ShoeWorkPartResponse], description: 'To be put on the receipt.' })
  parts: ShoeWorkPartResponse[];

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;
}

export class ShoeWorkAtDeskPage {
  @ApiProperty({ type: [ShoeWorkAtDeskResponse], description: 'Oldest first.' })
  items: ShoeWorkAtDeskResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}
