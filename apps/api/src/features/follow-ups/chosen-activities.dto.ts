import { IntField, NestedListField, TextField } from '../../http/fields.js';

export class ChosenActivityFields {
  @TextField({
    max: 120,
    description: 'In the rider’s own words.',
    example: 'Ride three hours without numb toes',
  })
  activity: string;

  @IntField({
    min: 0,
    max: 10,
    description: 'How well it goes now: 0 not at all, 10 as well as before the trouble began.',
    example: 3,
  })
  ability: number;
}

export class ChosenActivitiesFields {
  @NestedListField(() => ChosenActivityFields, {
    max: 3,
    description:
      'What the rider wants to do better, asked again at the follow-ups. In place of what was named before.',
  })
  activities: ChosenActivityFields[];
}
