import { ApiProperty, PartialType } from '@nestjs/swagger';
import {
  papers,
  partKinds,
  type AccountSettings,
  type Paper,
  type Part,
  type PartKind,
  type TaxRate,
} from '@studio/database';
import { decimalAmount } from '@studio/money';
import { Matches } from 'class-validator';
import { BooleanField, DayField, EnumField, TextField } from '../../http/fields.js';
import { CurrencyField, MinorField, PercentField, TaxClassField } from '../../http/money-fields.js';

export const seriesForm = /^[A-Z0-9]{1,8}$/;

export const SeriesField = (options: { optional?: boolean; description?: string; example: string }) =>
  function (target: object, key: string): void {
    Matches(seriesForm, { message: 'must be 1 to 8 capital letters or digits' })(target, key);
    TextField({ max: 8, ...options })(target, key);
  };

export class CreateAccountSettingsRequest {
  @CurrencyField({ description: 'What the studio sells in; ISO 4217.' })
  currency: string;

  @BooleanField({ description: 'Whether prices on quotes and receipts hold the tax.' })
  taxIncluded: boolean;

  @TextField({ description: 'Who sells, as printed.', example: 'Quayside Fitting ApS' })
  sellerName: string;

  @TextField({ optional: true, nullable: true, max: 500, example: 'Quay 4\n8000 Aarhus' })
  sellerAddress?: string | null;

  @TextField({ optional: true, nullable: true, max: 50, example: 'DK00000000' })
  sellerTaxNumber?: string | null;

  @TextField({ optional: true, nullable: true, max: 500, example: 'Payable within 14 days.' })
  footer?: string | null;

  @EnumField(papers, {
    optional: true,
    description: 'What papers are printed on (A4 when absent).',
    example: 'A4',
  })
  paper?: Paper;

  @SeriesField({ optional: true, description: 'Leads the numbers of quotes (Q when absent).', example: 'Q' })
  quoteSeries?: string;

  @SeriesField({
    optional: true,
    description: 'Leads the numbers of receipts (R when absent).',
    example: 'R',
  })
  receiptSeries?: string;

  @SeriesField({
    optional: true,
    description: 'Leads the numbers of credit notes (C when absent).',
    example: 'C',
  })
  creditNoteSeries?: string;
}

export class UpdateAccountSettingsRequest extends PartialType(CreateAccountSettingsRequest, {
  skipNullProperties: false,
}) {}

export class AccountSettingsResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'DKK' })
  currency: string;

  @ApiProperty()
  taxIncluded: boolean;

  @ApiProperty({ example: 'Quayside Fitting ApS' })
  sellerName: string;

  @ApiProperty({ type: String, nullable: true, example: 'Quay 4\n8000 Aarhus' })
  sellerAddress: string | null;

  @ApiProperty({ type: String, nullable: true, example: 'DK00000000' })
  sellerTaxNumber: string | null;

  @ApiProperty({ type: String, nullable: true, example: 'Payable within 14 days.' })
  footer: string | null;

  @ApiProperty({ enum: papers })
  paper: Paper;

  @ApiProperty({ example: 'Q' })
  quoteSeries: string;

  @ApiProperty({ example: 'R' })
  receiptSeries: string;

  @ApiProperty({ example: 'C' })
  creditNoteSeries: string;

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;

  static of({ studioId, createdAt, ...rest }: AccountSettings): AccountSettingsResponse {
    return rest;
  }
}

export class CreateTaxRateRequest {
  @TaxClassField({ description: 'A name of your own for what is taxed alike.' })
  taxClass: string;

  @PercentField()
  taxRatePercent: string;

  @DayField({ description: 'First day of supply it counts on.', example: '2026-01-01' })
  validFrom: string;

  @DayField({
    optional: true,
    nullable: true,
    description: 'Last day; null while none is known.',
    example: '2026-12-31',
  })
  validUntil?: string | null;
}

export class EndTaxRateRequest {
  @DayField({ nullable: true, description: 'Last day; null while none is known.', example: '2026-12-31' })
  validUntil: string | null;
}

export class TaxRateResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'standard' })
  taxClass: string;

  @ApiProperty({ example: '25' })
  taxRatePercent: string;

  @ApiProperty({ format: 'date', example: '2026-01-01' })
  validFrom: string;

  @ApiProperty({ type: String, format: 'date', nullable: true, example: '2026-12-31' })
  validUntil: string | null;

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;

  static of({ studioId, createdAt, ...rest }: TaxRate): TaxRateResponse {
    return { ...rest, taxRatePercent: String(Number(rest.taxRatePercent)) };
  }
}

export class TaxRatePage {
  @ApiProperty({ type: [TaxRateResponse] })
  items: TaxRateResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

export class CreatePartRequest {
  @TextField({ max: 100, example: 'Cleat, three-bolt, pair' })
  name: string;

  @EnumField(partKinds, { example: 'cleat' })
  kind: PartKind;

  @MinorField({
    description: 'In the studio’s currency; with or without tax as the studio’s prices are.',
    example: 19_900,
  })
  priceMinor: number;

  @TaxClassField()
  taxClass: string;
}

export class UpdatePartRequest extends PartialType(CreatePartRequest, {
  skipNullProperties: false,
}) {
  @BooleanField({ optional: true, description: 'A retired part is sold no more; what was sold stays.' })
  retired?: boolean;
}

export class PartResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'Cleat, three-bolt, pair' })
  name: string;

  @ApiProperty({ enum: partKinds })
  kind: PartKind;

  @ApiProperty({ type: 'integer', example: 19_900 })
  priceMinor: number;

  @ApiProperty({ example: '199.00' })
  price: string;

  @ApiProperty({ example: 'DKK' })
  currency: string;

  @ApiProperty({ example: 'standard' })
  taxClass: string;

  @ApiProperty()
  retired: boolean;

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;

  static of({ studioId, createdAt, retiredAt, ...rest }: Part): PartResponse {
    return { ...rest, price: decimalAmount(rest.priceMinor, rest.currency), retired: retiredAt !== null };
  }
}

export class PartPage {
  @ApiProperty({ type: [PartResponse] })
  items: PartResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}
