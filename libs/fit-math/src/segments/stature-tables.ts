/** Segments as shares of stature, all of one table from one source. */
export interface StatureTable {
  readonly id: 'drillis-contini' | 'landmark-survey';
  readonly source: string;
  /** Landmark or joint the shares run between. */
  readonly definition: string;
  readonly thigh: number;
  readonly shank: number;
  /** Floor to the ankle landmark. */
  readonly ankleHeight: number;
  readonly footLength: number;
}

/** Means of the pooled survey, mm, n 6068. */
const survey = {
  stature: 1714.41,
  trochanterion: 882.74,
  epicondyle: 483.24,
  malleolus: 69.58,
  footLength: 263.03,
};

/** Two tables that differ: hip height is 0.530 of stature in the one, 0.515 in the other, so they are never mixed. */
export const statureTables: readonly [StatureTable, StatureTable] = [
  {
    id: 'drillis-contini',
    source:
      'Drillis & Contini 1966, NYU TR 1166.03, as printed by Winter 2009, fig. 4.1 (by way of secondary copies)',
    definition: 'Joint heights 0.530, 0.285 and 0.039 of stature.',
    thigh: 0.245,
    shank: 0.246,
    ankleHeight: 0.039,
    footLength: 0.152,
  },
  {
    id: 'landmark-survey',
    source: 'pooled means of ANSUR II, Gordon et al. 2014, NATICK/TR-15/007, n 6068',
    definition: 'Trochanterion, lateral femoral epicondyle and lateral malleolus, heights standing.',
    thigh: (survey.trochanterion - survey.epicondyle) / survey.stature,
    shank: (survey.epicondyle - survey.malleolus) / survey.stature,
    ankleHeight: survey.malleolus / survey.stature,
    footLength: survey.footLength / survey.stature,
  },
];
