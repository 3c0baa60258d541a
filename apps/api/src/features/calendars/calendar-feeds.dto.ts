import { ApiProperty } from '@nestjs/swagger';
import type { CalendarFeed } from '@studio/database';
import { UuidField } from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';

export class CreateCalendarFeedRequest {
  @UuidField({ optional: true, description: 'The visits of a fitter …' })
  fitterId?: string;

  @UuidField({ optional: true, description: '… or of a room: one of the two.' })
  roomId?: string;
}

export class ListCalendarFeedsQuery extends PageQuery {}

export class CalendarFeedResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  fitterId: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  roomId: string | null;

  @ApiProperty({ format: 'date-time' })
  createdAt: string;

  @ApiProperty({
    type: String,
    format: 'date-time',
    nullable: true,
    description: 'When its address changed.',
  })
  renewedAt: string | null;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  revokedAt: string | null;

  static of(row: CalendarFeed): CalendarFeedResponse {
    return {
      id: row.id,
      fitterId: row.fitterId,
      roomId: row.roomId,
      createdAt: row.createdAt.toISOString(),
      renewedAt: row.renewedAt?.toISOString() ?? null,
      revokedAt: row.revokedAt?.toISOString() ?? null,
    };
  }
}

export class AddressedCalendarFeedResponse extends CalendarFeedResponse {
  @ApiProperty({
    example: 'https://fitting.example/calendars/0199….ics',
    description: 'Told this once: only its hash is kept. Whoever has it reads the feed.',
  })
  address: string;
}

export class CalendarFeedPage {
  @ApiProperty({ type: [CalendarFeedResponse] })
  items: CalendarFeedResponse[];

  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'Ask for the next page after it.',
  })
  next: string | null;
}
