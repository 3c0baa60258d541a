import { Body, Controller, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Describe } from '../../http/documentation.js';
import { calculations, type CalculationName } from './calculations.js';
import { InputPipe } from './input.pipe.js';
import { operationIdOf } from './describe-calculations.js';

const summaries: Readonly<Record<CalculationName, string>> = {
  'cleat-plans': 'Every way of moving a cleat back, and what each asks of saddle and bars',
  'cleat-places': 'Every place for the spindle under one foot that has a rule, side by side',
  'cleats-for-both-feet':
    'Feet of unequal length: each its own place, and what one place for both would cost',
  'cleat-rotations': 'How the cleat is turned so that the foot has its own angle within the float',
  stances: 'How far apart the feet stand on the pedals',
  'stance-options': 'The parts by which one foot comes to a wanted distance from the middle of the bike',
  'saddle-changes': 'How far the saddle moves when cleat, crank or what lies under the foot changes',
  'pedal-turns': 'Joint angles over a whole turn, and where the leg is straightest',
  'saddle-heights': 'Every published saddle-height rule the measures allow, side by side in one datum',
  'knee-over-spindle': 'How far a landmark of the knee is in front of the pedal spindle',
  'saddle-swaps': 'Where another saddle goes so that the rider sits where the rider sat',
  'racing-saddle-checks': "A saddle's place and length against the racing rule, with its edition",
  'crank-changes': 'What another crank asks of the saddle, and does to knee and hip',
  'crank-lengths': 'The crank lengths that published proportions give, side by side',
  'segments-from-heights': "A leg's segments from landmark heights",
  'segments-from-stature': "A leg's segments guessed from stature: a fall-back, marked as one",
  'leg-length-judgements': 'Whether a leg-length difference is beyond its error, and who should see it',
  'leg-length-options': 'What a shim, a stagger of the cleats or both do for both legs',
  transfers: 'The builds of a frame that come nearest to a position, with what is left over',
  'second-bikes': 'A second bike for another use: position, cleat change and build list in one',
  'air-densities': 'Density of the air, with its error',
  'course-times': 'Time over a course at one steady power',
  'lowering-gains': 'What lowering saddle and bars together may be worth, with its range',
  'rearward-cleat-suitability': 'What a cleat far back would serve and cost this rider; never a verdict',
  'captured-motion': 'What a recording of pedalling shows, turn by turn and over them',
  quantities: 'A typed length, mass, power or angle, in the unit it is kept in',
  measurements: 'Readings of one kind: converted, checked, averaged, with their error',
  repeats: 'What 2 to 5 readings of the same thing are worth together',
  'side-differences': 'Left less right of two measured sides, with its error',
};

/** The position library without a record: what comes in is computed with, answered and forgotten. */
@ApiTags('Calculations')
@Controller('v1/calculations')
export class CalculationsController {}

for (const [name, summary] of Object.entries(summaries) as [CalculationName, string][]) {
  addRoute(name, summary);
}

function addRoute(name: CalculationName, summary: string): void {
  const { prototype } = CalculationsController;
  const key = operationIdOf(name);
  // The pipe has let through nothing but this calculator's own input.
  const value = (input: unknown): unknown => calculations[name](input as never);
  Object.defineProperty(prototype, key, { value, writable: true, configurable: true });
  Reflect.defineMetadata('design:paramtypes', [Object], prototype, key);
  const descriptor = Object.getOwnPropertyDescriptor(prototype, key) as PropertyDescriptor;
  Body(new InputPipe(name))(prototype, key, 0);
  Describe({ id: key, summary, status: 200, problems: [400, 422] })(prototype, key, descriptor);
  Post(name)(prototype, key, descriptor);
}
