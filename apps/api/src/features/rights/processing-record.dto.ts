import { ApiProperty } from '@nestjs/swagger';
import type { ProcessingActivity } from '@studio/retention';

export class ProcessingActivityResponse implements ProcessingActivity {
  @ApiProperty({ example: 'Booking' })
  name: string;

  @ApiProperty({ example: 'Visits are booked, moved, reminded of and offered from a waiting list' })
  purpose: string;

  @ApiProperty({ example: 'Contract, article 6(1)(b)' })
  legalBasis: string;

  @ApiProperty({ example: 'Clients, their guardians' })
  persons: string;

  @ApiProperty({ example: 'Name, mail address, phone, birth date, visits' })
  data: string;

  @ApiProperty({ example: 'The mail provider' })
  recipients: string;

  @ApiProperty({ example: 'as long as the law of accounts asks' })
  keptFor: string;
}

export class ProcessingRecordResponse {
  @ApiProperty({ example: 'Harbour Fitting', description: 'The controller.' })
  controller: string;

  @ApiProperty({ type: [String], example: ['Owner: Tomas Lindqvist, owner@harbour.example'] })
  contacts: string[];

  @ApiProperty({ type: [ProcessingActivityResponse] })
  activities: readonly ProcessingActivityResponse[];

  @ApiProperty({ type: [String], example: ['Queues hold ids only; links work once or for a short time.'] })
  protection: readonly string[];
}
