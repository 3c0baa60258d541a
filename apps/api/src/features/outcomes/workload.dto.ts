import { ApiProperty } from '@nestjs/swagger';
import { DayField, UuidField } from '../../http/fields.js';

export class WorkloadQuery {
  @DayField({ description: 'First day, by the studio’s calendar.', example: '2026-03-01' })
  from: string;

  @DayField({ description: 'Last day; at most a year.', example: '2026-03-31' })
  until: string;

  @UuidField({ optional: true, description: 'Work of this fitter only.' })
  fitterId?: string;

  @UuidField({ optional: true, description: 'Work at this site only.' })
  siteId?: string;
}

export class VisitCountsResponse {
  @ApiProperty({
    type: 'integer',
    description: 'Visits that began, or were to begin, in the period.',
    example: 120,
  })
  planned: number;

  @ApiProperty({
    type: 'integer',
    description: 'Of these, the client came: checked in or completed.',
    example: 104,
  })
  attended: number;

  @ApiProperty({ type: 'integer', example: 6 })
  noShows: number;

  @ApiProperty({ type: 'integer', description: 'Cancelled in time, or by the studio.', example: 7 })
  cancelled: number;

  @ApiProperty({
    type: 'integer',
    description: 'Cancelled by the client later than the service allows.',
    example: 3,
  })
  cancelledLate: number;

  @ApiProperty({ type: 'integer', description: 'Still only booked.', example: 0 })
  booked: number;
}

export class FitterWorkloadResponse extends VisitCountsResponse {
  @ApiProperty({ format: 'uuid' })
  fitterId: string;

  @ApiProperty({ example: 'Mette Kold' })
  name: string;

  @ApiProperty({
    description: 'Hours taken by visits that were not cancelled, buffers and no-shows included.',
    example: 96.5,
  })
  bookedHours: number;

  @ApiProperty({
    type: Number,
    nullable: true,
    description: 'Hours worked by the plan; null where none is recorded.',
    example: 140,
  })
  openHours: number | null;

  @ApiProperty({
    type: Number,
    nullable: true,
    description: 'Booked of open, 0 to 1; above 1 with visits outside the hours.',
    example: 0.69,
  })
  utilisation: number | null;
}

export class RoomWorkloadResponse {
  @ApiProperty({ format: 'uuid' })
  roomId: string;

  @ApiProperty({ example: 'Fit bay' })
  name: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  siteId: string | null;

  @ApiProperty({ type: 'integer', description: 'Visits that were not cancelled.', example: 80 })
  visits: number;

  @ApiProperty({ example: 70.25 })
  bookedHours: number;

  @ApiProperty({
    type: Number,
    nullable: true,
    description: 'Hours open by the plan; null where none is recorded.',
    example: 180,
  })
  openHours: number | null;

  @ApiProperty({ type: Number, nullable: true, example: 0.39 })
  utilisation: number | null;
}

export class RevenueLineResponse {
  @ApiProperty({ description: 'Month of issue, by the studio’s calendar.', example: '2026-03' })
  month: string;

  @ApiProperty({ example: 'EUR' })
  currency: string;

  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'Of the visit; null for lines of no visit.',
  })
  fitterId: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  siteId: string | null;

  @ApiProperty({ type: 'integer', description: 'Receipts with such a line.', example: 40 })
  receipts: number;

  @ApiProperty({
    type: 'integer',
    description: 'Lines of issued receipts less those of credit notes.',
    example: 480_000,
  })
  netMinor: number;

  @ApiProperty({ type: 'integer', example: 120_000 })
  taxMinor: number;

  @ApiProperty({ type: 'integer', example: 600_000 })
  grossMinor: number;
}

export class WorkloadResponse {
  @ApiProperty({ description: 'What is told of, in words.', example: 'from 2026-03-01 to 2026-03-31' })
  of: string;

  @ApiProperty({ type: VisitCountsResponse })
  visits: VisitCountsResponse;

  @ApiProperty({ type: [FitterWorkloadResponse], description: 'Whoever fits, or had visits, in the period.' })
  fitters: FitterWorkloadResponse[];

  @ApiProperty({ type: [RoomWorkloadResponse] })
  rooms: RoomWorkloadResponse[];

  @ApiProperty({ type: [RevenueLineResponse] })
  revenue: RevenueLineResponse[];

  @ApiProperty({
    type: 'integer',
    description:
      'Pairs of shoes whose soles were first changed for good in the period, by who did it; of a site, those done ' +
      'or cured there. Given up or not.',
    example: 12,
  })
  shoeWork: number;

  @ApiProperty({
    type: 'integer',
    nullable: true,
    description:
      'Referral cases opened in the period; null when one fitter or site is asked for, since a case is of neither.',
    example: 5,
  })
  referrals: number | null;
}
