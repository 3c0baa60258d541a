import { ApiProperty } from '@nestjs/swagger';
import { documentKinds, type DocumentKind } from '@studio/database';
import { quantityForm } from '@studio/money';
import { Matches } from 'class-validator';
import {
  DayField,
  EnumField,
  NestedField,
  NestedListField,
  TextField,
  UuidField,
} from '../../http/fields.js';
import { MinorField, PercentField, TaxClassField } from '../../http/money-fields.js';
import { PageQuery } from '../../http/paging.js';
import { SeriesField } from './price-list.dto.js';
import { shownStates, type ShownState } from './states.js';

export class DiscountRequest {
  @PercentField({ optional: true, description: 'Percent; this or the amount.', example: '10' })
  percent?: string;

  @MinorField({ optional: true, description: 'Minor units; this or the percentage.', example: 5000 })
  amountMinor?: number;
}

export class LineRequest {
  @UuidField({ optional: true, description: 'A service of the catalogue; that of the visit when absent.' })
  serviceId?: string;

  @UuidField({ optional: true, description: 'A part of the price list.' })
  partId?: string;

  @UuidField({ optional: true, description: 'The visit it was earned in.' })
  appointmentId?: string;

  @TextField({
    optional: true,
    description: 'As printed; the name of the service or part when absent. No health information.',
    example: 'First fit',
  })
  description?: string;

  @Matches(quantityForm, { message: 'must be a quantity like 1, 2.5 or 0.125' })
  @TextField({ optional: true, max: 8, description: '1 when absent.', example: '1' })
  quantity?: string;

  @MinorField({
    optional: true,
    description:
      'Minor units, with or without tax as the studio’s prices are; that of the service or part when absent.',
  })
  unitPriceMinor?: number;

  @TaxClassField({ optional: true, description: 'That of the service or part when absent.' })
  taxClass?: string;

  @NestedField(() => DiscountRequest, { optional: true })
  discount?: DiscountRequest;
}

/** All that a draft says; a change replaces it as a whole. */
export class DocumentContentRequest {
  @UuidField({ optional: true, description: 'Absent for a sale to somebody who is no client.' })
  clientId?: string;

  @TextField({ optional: true, description: 'The client’s name when absent.', example: 'Alva Lind' })
  buyerName?: string;

  @TextField({ optional: true, max: 500, example: 'Elm Road 2\n8000 Aarhus' })
  buyerAddress?: string;

  @TextField({ optional: true, max: 50, example: 'DK99999999' })
  buyerTaxNumber?: string;

  @TextField({
    optional: true,
    max: 500,
    description: 'Printed. No health information.',
    example: 'Thank you.',
  })
  note?: string;

  @DayField({
    optional: true,
    description: 'Day of supply, which decides the rates of tax (today when absent).',
    example: '2026-03-02',
  })
  suppliedOn?: string;

  @DayField({ optional: true, description: 'Until when a quote stands.', example: '2026-04-02' })
  validUntil?: string;

  @NestedField(() => DiscountRequest, {
    optional: true,
    description: 'On the whole, shared among the lines.',
  })
  discount?: DiscountRequest;

  @NestedListField(() => LineRequest, { min: 1, max: 100 })
  lines: LineRequest[];
}

export class CreateDocumentRequest extends DocumentContentRequest {
  @EnumField(['quote', 'receipt'], { example: 'receipt' })
  kind: 'quote' | 'receipt';

  @SeriesField({
    optional: true,
    description: 'Leads its number; that of the settings when absent.',
    example: 'R',
  })
  series?: string;
}

export class CreditedLineRequest {
  @UuidField({ description: 'A line of the receipt.' })
  lineId: string;

  @MinorField({
    optional: true,
    min: 1,
    description:
      'Minor units, with or without tax as on the receipt; all that is left of the line when absent.',
    example: 5000,
  })
  amountMinor?: number;
}

export class CreateCreditNoteRequest {
  @TextField({ max: 300, description: 'Printed. No health information.', example: 'Insole returned.' })
  reason: string;

  @NestedListField(() => CreditedLineRequest, {
    optional: true,
    min: 1,
    max: 100,
    description: 'All that is left of the receipt when absent.',
  })
  lines?: CreditedLineRequest[];
}

export class ListDocumentsQuery extends PageQuery {
  @EnumField(documentKinds, { optional: true, example: 'receipt' })
  kind?: DocumentKind;

  @EnumField(shownStates, { optional: true, example: 'issued' })
  state?: ShownState;

  @UuidField({ optional: true })
  clientId?: string;
}

export class TaxTotalResponse {
  @ApiProperty({ example: 'standard' })
  taxClass: string;

  @ApiProperty({ example: '25' })
  taxRatePercent: string;

  @ApiProperty({ type: 'integer', example: 103_600 })
  netMinor: number;

  @ApiProperty({ type: 'integer', example: 25_900 })
  taxMinor: number;

  @ApiProperty({ type: 'integer', example: 129_500 })
  grossMinor: number;
}

export class LineResponse extends TaxTotalResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ type: 'integer', example: 1 })
  position: number;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  serviceId: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  partId: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  appointmentId: string | null;

  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'On a credit note: the line it corrects.',
  })
  creditsLineId: string | null;

  @ApiProperty({ example: 'First fit' })
  description: string;

  @ApiProperty({ example: '1' })
  quantity: string;

  @ApiProperty({ type: 'integer', example: 129_500 })
  unitPriceMinor: number;

  @ApiProperty({ type: String, nullable: true, example: '10' })
  discountPercent: string | null;

  @ApiProperty({ type: 'integer', nullable: true, example: 5000 })
  discountMinor: number | null;

  @ApiProperty({
    type: 'integer',
    description: 'Taken off by its own discount and its share of the discount on the whole.',
    example: 0,
  })
  takenOffMinor: number;

  @ApiProperty({ type: 'integer', description: 'Of it credited so far, as gross.', example: 0 })
  creditedMinor: number;
}

export class DocumentSummaryResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ enum: documentKinds })
  kind: DocumentKind;

  @ApiProperty({ enum: shownStates, description: 'A receipt of which nothing is left is `credited`.' })
  state: ShownState;

  @ApiProperty({
    type: String,
    nullable: true,
    description: 'Given when it is issued.',
    example: 'R-2026-00017',
  })
  number: string | null;

  @ApiProperty({ type: String, format: 'date-time', nullable: true, example: '2026-03-02T10:15:00.000Z' })
  issuedAt: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  clientId: string | null;

  @ApiProperty({ type: String, nullable: true, example: 'Alva Lind' })
  buyerName: string | null;

  @ApiProperty({ format: 'date', example: '2026-03-02' })
  suppliedOn: string;

  @ApiProperty({ example: 'DKK' })
  currency: string;

  @ApiProperty({ type: 'integer', example: 103_600 })
  netMinor: number;

  @ApiProperty({ type: 'integer', example: 25_900 })
  taxMinor: number;

  @ApiProperty({ type: 'integer', example: 129_500 })
  grossMinor: number;

  @ApiProperty({ description: 'The gross amount with the decimals of its currency.', example: '1295.00' })
  gross: string;

  @ApiProperty({ type: 'integer', description: 'Of a receipt: taken back by credit notes.', example: 0 })
  creditedMinor: number;

  @ApiProperty({
    type: 'integer',
    description: 'Of a receipt: money taken for it less money given back, deposits counted in.',
    example: 129_500,
  })
  paidMinor: number;

  @ApiProperty({
    type: 'integer',
    description: 'Of an issued receipt: still to be paid; below 0 what the client is to be given back.',
    example: 0,
  })
  openMinor: number;

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;
}

export class DocumentResponse extends DocumentSummaryResponse {
  @ApiProperty({ type: String, nullable: true, example: 'Elm Road 2\n8000 Aarhus' })
  buyerAddress: string | null;

  @ApiProperty({ type: String, nullable: true, example: 'DK99999999' })
  buyerTaxNumber: string | null;

  @ApiProperty({ type: String, nullable: true, example: 'Thank you.' })
  note: string | null;

  @ApiProperty({ type: String, format: 'date', nullable: true, example: '2026-04-02' })
  validUntil: string | null;

  @ApiProperty({ description: 'Whether its prices hold the tax.' })
  taxIncluded: boolean;

  @ApiProperty({ type: String, nullable: true, description: 'On the whole.', example: '10' })
  discountPercent: string | null;

  @ApiProperty({ type: 'integer', nullable: true, description: 'On the whole.', example: 5000 })
  discountMinor: number | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true, description: 'The quote it was made from.' })
  quoteId: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true, description: 'The receipt it corrects.' })
  receiptId: string | null;

  @ApiProperty({
    type: String,
    nullable: true,
    description: 'Why it corrects the receipt.',
    example: 'Insole returned.',
  })
  reason: string | null;

  @ApiProperty({ type: [LineResponse] })
  lines: LineResponse[];

  @ApiProperty({ type: [TaxTotalResponse], description: 'One for each tax class and rate.' })
  taxes: TaxTotalResponse[];
}

export class DocumentPage {
  @ApiProperty({ type: [DocumentSummaryResponse] })
  items: DocumentSummaryResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}
