/** A way of measuring a leg-length difference, with the error it is known or taken to have. */
export interface LegLengthMethod {
  readonly id: 'tape' | 'blocks' | 'image';
  readonly definition: string;
  /** Standard deviation of one difference against the reference. */
  readonly sdMm: number;
  readonly sdSource: string;
  /** What else is published of it. */
  readonly reliability: string;
}

export const legLengthMethods: readonly LegLengthMethod[] = [
  {
    id: 'tape',
    definition: 'Tape, front upper iliac spine to inner malleolus, lying; left less right.',
    sdMm: 2.6,
    sdSource:
      'derived from the limits −3.17 to 7.07 mm about 1.95 mm against computed tomography, Jamaluddin et al. 2011, Singapore Med J 52(9):681–684, taken as 95 % limits',
    reliability:
      'In 20 subjects and 4 examiners the wrong leg was called longer in 7 of 20 (J Rheumatol 2014;41(8):1689–1694).',
  },
  {
    id: 'blocks',
    definition: 'Blocks under the shorter leg until the pelvis is level, standing.',
    sdMm: 3,
    sdSource: 'house rule; no standard deviation could be found',
    reliability:
      'Wrong leg in 1 of 20, at 5 mm sensitivity 55 % and specificity 89 % (J Rheumatol 2014;41(8):1689–1694).',
  },
  {
    id: 'image',
    definition: 'Full-length standing radiograph from the front, read by a clinician.',
    sdMm: 1,
    sdSource: 'house rule',
    reliability:
      'The reference the others are held to (systematic review 2021, PMC8687568; Sabharwal & Kumar 2008, CORR 466:2910–2922).',
  },
];
