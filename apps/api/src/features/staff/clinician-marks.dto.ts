import { ApiProperty } from '@nestjs/swagger';
import { DayField, TextField } from '../../http/fields.js';

export class GiveClinicianMarkRequest {
  @TextField({
    max: 200,
    description: 'As the register says it: the body and the number.',
    example: 'Register of physiotherapists, 00000',
  })
  registration: string;

  @DayField({ description: 'The day you looked it up.', example: '2026-03-02' })
  checkedOn: string;
}

export class ClinicianMarkResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  staffId: string;

  @ApiProperty({ example: 'Register of physiotherapists, 00000' })
  registration: string;

  @ApiProperty({ format: 'date', example: '2026-03-02' })
  checkedOn: string;

  @ApiProperty({ example: 'Inga Holm', description: 'The owner who gave it.' })
  givenBy: string;

  @ApiProperty({ format: 'date-time' })
  givenAt: Date;

  @ApiProperty({ type: String, format: 'date-time', nullable: true, description: 'Null while it stands.' })
  endedAt: Date | null;
}
