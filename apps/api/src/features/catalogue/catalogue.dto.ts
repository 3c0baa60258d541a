import { ApiProperty, PartialType } from '@nestjs/swagger';
import { prerequisites, type Prerequisite, type Service } from '@studio/database';
import { decimalAmount, taxed } from '@studio/money';
import {
  BooleanField,
  EnumListField,
  IntField,
  NestedField,
  TextField,
  WordListField,
} from '../../http/fields.js';
import { CurrencyField, MinorField, PercentField, TaxClassField } from '../../http/money-fields.js';

export class MoneyRequest {
  @MinorField()
  amountMinor: number;

  @CurrencyField()
  currency: string;
}

export class CreateServiceRequest {
  @TextField({ max: 100, example: 'First fit' })
  name: string;

  @IntField({ min: 5, max: 600, example: 120 })
  durationMinutes: number;

  @IntField({
    optional: true,
    min: 0,
    max: 240,
    description: 'Fitter and room are taken so long before the visit (none when absent).',
    example: 10,
  })
  bufferBeforeMinutes?: number;

  @IntField({ optional: true, min: 0, max: 240, description: 'And so long after it.', example: 15 })
  bufferAfterMinutes?: number;

  @IntField({
    optional: true,
    min: 0,
    max: 20_160,
    description: 'A bench is taken so long from the end of the visit.',
    example: 720,
  })
  curingMinutes?: number;

  @WordListField({
    optional: true,
    max: 20,
    description: 'Skills its fitter has, all of them.',
    example: ['cleat_fitting'],
  })
  requiredSkills?: string[];

  @WordListField({
    optional: true,
    max: 20,
    description: 'Equipment its room has, all of it.',
    example: ['motion_capture'],
  })
  requiredEquipment?: string[];

  @EnumListField(prerequisites, {
    optional: true,
    min: 0,
    description:
      'What must be in hand before the client is checked in: an intake, and that no finding bars every activity.',
    example: ['intake'],
  })
  prerequisites?: Prerequisite[];

  @NestedField(() => MoneyRequest, { optional: true, nullable: true })
  price?: MoneyRequest | null;

  @PercentField({ optional: true, description: 'Percent; counts while the service names no tax class.' })
  taxRatePercent?: string;

  @TaxClassField({
    optional: true,
    nullable: true,
    description: 'The rate is then that of the class on the day.',
  })
  taxClass?: string | null;

  @BooleanField({ optional: true, description: 'Whether the price holds the tax (it does when absent).' })
  taxIncluded?: boolean;

  @BooleanField({ optional: true, description: 'Whether clients may book it by themselves.' })
  onlineBookable?: boolean;

  @IntField({
    optional: true,
    min: 0,
    max: 20,
    description: 'Follow-up checks its price covers.',
    example: 1,
  })
  followUpsIncluded?: number;

  @IntField({
    optional: true,
    min: 0,
    max: 129_600,
    description: 'Bookable from so long after now.',
    example: 120,
  })
  leadTimeMinutes?: number;

  @IntField({
    optional: true,
    nullable: true,
    min: 1,
    max: 3650,
    description: 'Bookable up to so many days ahead; null for any day.',
    example: 90,
  })
  horizonDays?: number | null;

  @IntField({
    optional: true,
    min: 0,
    max: 720,
    description:
      'A cancellation later than so long before the visit is a late one (24 when absent; common practice, no source).',
    example: 24,
  })
  cancellationNoticeHours?: number;
}

export class UpdateServiceRequest extends PartialType(CreateServiceRequest, { skipNullProperties: false }) {
  @BooleanField({ optional: true, description: 'A retired service is not offered; its visits stay.' })
  retired?: boolean;
}

export class PriceResponse {
  @ApiProperty({ type: 'integer', example: 129_500 })
  amountMinor: number;

  @ApiProperty({ example: 'DKK' })
  currency: string;

  @ApiProperty({ description: 'The same amount with the decimals of its currency.', example: '1295.00' })
  amount: string;

  @ApiProperty({ type: 'integer', example: 103_600 })
  netMinor: number;

  @ApiProperty({ type: 'integer', example: 25_900 })
  taxMinor: number;

  @ApiProperty({ type: 'integer', example: 129_500 })
  grossMinor: number;
}

export class ServiceResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'First fit' })
  name: string;

  @ApiProperty({ type: 'integer', example: 120 })
  durationMinutes: number;

  @ApiProperty({ type: 'integer', example: 10 })
  bufferBeforeMinutes: number;

  @ApiProperty({ type: 'integer', example: 15 })
  bufferAfterMinutes: number;

  @ApiProperty({ type: 'integer', example: 0 })
  curingMinutes: number;

  @ApiProperty({ type: [String], example: ['cleat_fitting'] })
  requiredSkills: string[];

  @ApiProperty({ type: [String], example: ['motion_capture'] })
  requiredEquipment: string[];

  @ApiProperty({ enum: prerequisites, isArray: true })
  prerequisites: Prerequisite[];

  @ApiProperty({ type: PriceResponse, nullable: true })
  price: PriceResponse | null;

  @ApiProperty({
    description: 'Of its tax class today, or its own; null when its class has no rate today.',
    nullable: true,
    type: String,
    example: '25',
  })
  taxRatePercent: string | null;

  @ApiProperty({ nullable: true, type: String, example: 'standard' })
  taxClass: string | null;

  @ApiProperty()
  taxIncluded: boolean;

  @ApiProperty()
  onlineBookable: boolean;

  @ApiProperty({ type: 'integer', example: 1 })
  followUpsIncluded: number;

  @ApiProperty({ type: 'integer', example: 0 })
  leadTimeMinutes: number;

  @ApiProperty({ type: 'integer', nullable: true, example: 90 })
  horizonDays: number | null;

  @ApiProperty({ type: 'integer', example: 24 })
  cancellationNoticeHours: number;

  @ApiProperty()
  retired: boolean;

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;

  /** @param rates of the studio's tax classes today, in percent */
  static of(row: Service, rates: ReadonlyMap<string, string>): ServiceResponse {
    const { studioId, createdAt, retiredAt, priceMinor, currency, ...rest } = row;
    const ownRate = String(Number(row.taxRatePercent));
    const taxRatePercent = row.taxClass === null ? ownRate : (rates.get(row.taxClass) ?? null);
    return {
      ...rest,
      taxRatePercent,
      price: taxRatePercent === null ? null : priceOf({ ...row, taxRatePercent }),
      retired: retiredAt !== null,
    };
  }
}

function priceOf(row: Service): PriceResponse | null {
  const { priceMinor: amountMinor, currency, taxRatePercent, taxIncluded } = row;
  if (amountMinor === null || currency === null) return null;
  return {
    amountMinor,
    currency,
    amount: decimalAmount(amountMinor, currency),
    ...taxed({ amountMinor, taxRatePercent, taxIncluded }),
  };
}
