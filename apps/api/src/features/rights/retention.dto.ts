import { ApiProperty } from '@nestjs/swagger';
import { countries, countryIds, type CountryId, type KeptFor } from '@studio/retention';
import { BooleanField, EnumField } from '../../http/fields.js';

export class ChooseRetentionRequest {
  @EnumField(countryIds, { description: 'By whose law the studio keeps records (ISO 3166).' })
  country: CountryId;

  @BooleanField({
    description:
      'Whether the law of health records binds the studio. It binds who gives health care, not every bike studio: ask somebody who knows.',
  })
  boundByHealthLaw: boolean;
}

export class KeptForResponse {
  @ApiProperty({ type: 'integer', example: 8 })
  years: number;

  @ApiProperty({
    type: 'integer',
    nullable: true,
    example: 25,
    description: 'Of somebody who was a minor at the last entry: not before the birthday at this age.',
  })
  untilAge: number | null;

  @ApiProperty({ enum: ['last_entry', 'end_of_year'], description: 'From when the years are counted.' })
  from: KeptFor['from'];

  @ApiProperty({ example: 'Records Management Code of Practice for health and social care' })
  law: string;

  @ApiProperty({ example: 'Chartered Society of Physiotherapy' })
  source: string;

  @ApiProperty({
    enum: ['published', 'second_hand', 'memory'],
    description: 'How sure it is; from `memory`: have it confirmed.',
  })
  strength: KeptFor['strength'];
}

export class CountryRulesResponse {
  @ApiProperty({ enum: countryIds })
  country: CountryId;

  @ApiProperty({ example: 'England' })
  name: string;

  @ApiProperty({ type: KeptForResponse })
  healthRecord: KeptForResponse;

  @ApiProperty({ type: KeptForResponse })
  accounts: KeptForResponse;
}

export class RetentionResponse {
  @ApiProperty({ type: String, enum: countryIds, nullable: true, description: 'Null until it is chosen.' })
  country: CountryId | null;

  @ApiProperty({ type: Boolean, nullable: true })
  boundByHealthLaw: boolean | null;

  @ApiProperty({ type: [CountryRulesResponse], description: 'What there is to choose from.' })
  countries: CountryRulesResponse[];

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;
}

const keptFor = ({ years, untilAge, from, law, source, strength }: KeptFor): KeptForResponse => ({
  ...{ years, untilAge: untilAge ?? null, from, law, source, strength },
});

export const countryRules = (): CountryRulesResponse[] =>
  countryIds.map((country) => ({
    country,
    name: countries[country].name,
    healthRecord: keptFor(countries[country].healthRecord),
    accounts: keptFor(countries[country].accounts),
  }));
