import { ApiProperty } from '@nestjs/swagger';
import { paymentMethods, type PaymentMethod } from '@studio/database';
import { DayField } from '../../http/fields.js';
import { TaxTotalResponse } from './documents.dto.js';

export class DaysQuery {
  @DayField({ description: 'First day, by the studio’s calendar.', example: '2026-03-01' })
  from: string;

  @DayField({ description: 'Last day.', example: '2026-03-31' })
  until: string;
}

export class MethodTotalResponse {
  @ApiProperty({ enum: paymentMethods })
  method: PaymentMethod;

  @ApiProperty({ type: 'integer', description: 'Taken, mistakes taken back.', example: 159_500 })
  takenMinor: number;

  @ApiProperty({ type: 'integer', description: 'Given back, as a positive amount.', example: 0 })
  givenBackMinor: number;

  @ApiProperty({ type: 'integer', description: 'Taken less given back.', example: 159_500 })
  totalMinor: number;
}

export class DayTotalsResponse {
  @ApiProperty({ format: 'date', example: '2026-03-02' })
  day: string;

  @ApiProperty({ example: 'DKK' })
  currency: string;

  @ApiProperty({ type: 'integer', description: 'Receipts issued.', example: 4 })
  receipts: number;

  @ApiProperty({ type: 'integer', description: 'Credit notes issued.', example: 0 })
  creditNotes: number;

  @ApiProperty({ type: 'integer', description: 'Receipts less credit notes.', example: 103_600 })
  netMinor: number;

  @ApiProperty({ type: 'integer', example: 25_900 })
  taxMinor: number;

  @ApiProperty({ type: 'integer', example: 129_500 })
  grossMinor: number;

  @ApiProperty({ type: [TaxTotalResponse], description: 'The same by tax class and rate.' })
  taxes: TaxTotalResponse[];

  @ApiProperty({
    type: [MethodTotalResponse],
    description: 'Money by the way it was handed over, deposits too.',
  })
  methods: MethodTotalResponse[];
}

export class ClientBalanceResponse {
  @ApiProperty({ example: 'DKK' })
  currency: string;

  @ApiProperty({
    type: 'integer',
    description: 'Still to be paid of issued receipts; below 0 what the client is to be given back for them.',
    example: 99_500,
  })
  openMinor: number;

  @ApiProperty({ type: 'integer', description: 'Deposits not used and not given back.', example: 30_000 })
  depositsMinor: number;

  @ApiProperty({
    type: 'integer',
    description: 'What the client owes; below 0 what the studio owes.',
    example: 69_500,
  })
  balanceMinor: number;

  @ApiProperty({ example: '695.00' })
  balance: string;
}
