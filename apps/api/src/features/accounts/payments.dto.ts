import { ApiProperty } from '@nestjs/swagger';
import { paymentKinds, paymentMethods, type PaymentKind, type PaymentMethod } from '@studio/database';
import { EnumField, TextField, UuidField } from '../../http/fields.js';
import { MinorField } from '../../http/money-fields.js';
import { PageQuery } from '../../http/paging.js';

export const recordedKinds = ['payment', 'deposit', 'refund'] as const;

export class CreatePaymentRequest {
  @EnumField(recordedKinds, {
    description:
      '`payment` for a receipt, `deposit` of a client before there is one, `refund` of what a credit note or an unused deposit gives back.',
    example: 'payment',
  })
  kind: (typeof recordedKinds)[number];

  @EnumField(paymentMethods, { description: 'As it was handed over.', example: 'card_terminal' })
  method: PaymentMethod;

  @MinorField({ min: 1 })
  amountMinor: number;

  @UuidField({ optional: true, description: 'Who leaves a deposit.' })
  clientId?: string;

  @UuidField({
    optional: true,
    description: 'The receipt that is paid, or the credit note that is paid back.',
  })
  documentId?: string;

  @UuidField({ optional: true, description: 'The deposit that is paid back.' })
  depositId?: string;

  @TextField({ optional: true, max: 300, description: 'No health information.', example: 'Slip 0412' })
  note?: string;
}

export class ReversePaymentRequest {
  @TextField({
    max: 300,
    description: 'What was wrong with the record.',
    example: 'Paid by card, not in cash.',
  })
  reason: string;
}

export class UseDepositRequest {
  @UuidField({ description: 'The receipt it counts towards.' })
  documentId: string;

  @MinorField({
    min: 1,
    optional: true,
    description: 'As much as the deposit and the receipt allow when absent.',
  })
  amountMinor?: number;
}

export class ListPaymentsQuery extends PageQuery {
  @UuidField({ optional: true })
  clientId?: string;

  @UuidField({ optional: true, description: 'Money for one receipt or credit note.' })
  documentId?: string;
}

export class PaymentResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ enum: paymentKinds, description: '`reversal` takes back a mistaken record.' })
  kind: PaymentKind;

  @ApiProperty({ enum: paymentMethods })
  method: PaymentMethod;

  @ApiProperty({ type: 'integer', description: 'Taken; below 0 given back.', example: 129_500 })
  amountMinor: number;

  @ApiProperty({ example: '1295.00' })
  amount: string;

  @ApiProperty({ example: 'DKK' })
  currency: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  clientId: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  documentId: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  depositId: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  reversesId: string | null;

  @ApiProperty({ type: String, nullable: true, example: 'Slip 0412' })
  note: string | null;

  @ApiProperty({ format: 'date-time', example: '2026-03-02T10:15:00.000Z' })
  recordedAt: string;

  @ApiProperty({ format: 'uuid' })
  recordedBy: string;

  @ApiProperty({
    type: 'integer',
    nullable: true,
    description: 'Of a deposit: not used and not given back.',
    example: 0,
  })
  unusedMinor: number | null;
}

export class PaymentPage {
  @ApiProperty({ type: [PaymentResponse] })
  items: PaymentResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

export class DepositUseResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  depositId: string;

  @ApiProperty({ format: 'uuid' })
  documentId: string;

  @ApiProperty({ type: 'integer', example: 30_000 })
  amountMinor: number;

  @ApiProperty({ type: 'integer', description: 'Left of the deposit.', example: 0 })
  unusedMinor: number;

  @ApiProperty({ type: 'integer', description: 'Still to be paid of the receipt.', example: 99_500 })
  openMinor: number;
}
