import { bikeKinds, type BikeKind } from '@studio/database';
import { DayField, EnumField, QueryIntField, UuidField } from '../../http/fields.js';
import { bikeUses, type BikeUse } from '../equipment/index.js';

export const interventions = [
  'cleat_back',
  'midfoot',
  'saddle_height',
  'crank_length',
  'leg_length',
] as const;
export type Intervention = (typeof interventions)[number];

export const complaints = ['pain', 'numb_feet'] as const;
export type Complaint = (typeof complaints)[number];

/** Whom a review speaks of. Filters that are absent leave everybody in. */
export class ReviewQuery {
  @EnumField(interventions, {
    optional: true,
    description:
      'What was changed: `cleat_back` by 2 mm or more, `midfoot` to 3 mm of the midfoot line or behind it, `saddle_height` by 3 mm or more, `crank_length` by 1 mm or more, `leg_length` by an option of a plan for unequal legs.',
  })
  intervention?: Intervention;

  @QueryIntField({ optional: true, min: 0, max: 150, description: 'Cleat moved back by this or more, mm.' })
  cleatBackFromMm?: number;

  @QueryIntField({ optional: true, min: 1, max: 150, description: 'Cleat moved back by less than this, mm.' })
  cleatBackBelowMm?: number;

  @EnumField(bikeKinds, { optional: true, description: 'Fitted on such a bike.' })
  bikeKind?: BikeKind;

  @EnumField(bikeUses, { optional: true, description: 'Fitted on a bike that is used for this.' })
  bikeUse?: BikeUse;

  @EnumField(complaints, {
    optional: true,
    description: 'What was there before anything was changed: any pain on the bike, or numb feet.',
  })
  complaint?: Complaint;

  @DayField({ optional: true, description: 'Signed on this day or later, by the clock of the studio.' })
  from?: string;

  @DayField({ optional: true, description: 'Signed on this day or before.' })
  until?: string;

  @UuidField({ optional: true, description: 'Fitted by this user.' })
  fitterId?: string;

  @UuidField({ optional: true, description: 'Fitted at this site: in one of its rooms, as it was booked.' })
  siteId?: string;

  @QueryIntField({
    optional: true,
    min: 1,
    max: 20,
    description: 'Loss of 20-minute power that would still be accepted, percent; 2 when absent.',
  })
  powerMarginPercent?: number;
}

export class CompareQuery extends ReviewQuery {
  @EnumField(['others'] as const, {
    optional: true,
    description: 'Beside them everybody else whom the other filters leave in; needs a change to choose by.',
  })
  compareWith?: 'others';
}

/** Whether there is a change to choose by. */
export const choosesByChange = (query: ReviewQuery): boolean =>
  query.intervention !== undefined ||
  query.cleatBackFromMm !== undefined ||
  query.cleatBackBelowMm !== undefined;
