/** What is asked of a rider about a cleat far back. Null = not asked or not known. */
export const suitabilityQuestions = {
  steadyLongEfforts: 'Rides long at a steady effort.',
  timeTrial: 'Rides time trials or solo efforts without surges.',
  runsAfterRiding: 'Runs straight after riding.',
  forefootNumbnessPersists:
    'Forefoot numbness or pain persists with the usual cleat, shoe and insole seen to.',
  forefootNumbnessScreened: 'That numbness or pain has been screened for causes that need a clinician.',
  largeSideDifference: 'Feet or legs differ much between the sides.',
  surgingBunchRacing: 'Races in bunches with surges and sprints.',
  standsOften: 'Rides out of the saddle often.',
  walksInTheShoes: 'Walks in the shoes.',
  twistyOrSlowRiding: 'Turns tightly at low speed, as in traffic or on trails.',
} as const;

export type SuitabilityQuestion = keyof typeof suitabilityQuestions;

/**
 * How much stands behind a rule: `small-trials` = one or few, under about 25
 * people; `mixed` = trials that disagree; `reasoning` = follows from the geometry; `common-practice` = no source.
 */
export type Evidence = 'small-trials' | 'mixed' | 'reasoning' | 'common-practice';

export interface SuitabilityRule {
  readonly id: string;
  readonly effect: 'serves' | 'costs' | 'neither';
  /** The rule applies when every one of these is true. */
  readonly when: readonly SuitabilityQuestion[];
  readonly text: string;
  readonly evidence: Evidence;
  readonly source: string;
}

export const rearwardCleatRules: readonly SuitabilityRule[] = [
  {
    id: 'steady-effort-calf',
    effect: 'serves',
    when: ['steadyLongEfforts'],
    text: 'The calf holds less at a steady effort.',
    evidence: 'small-trials',
    source:
      'Litzenberger et al. 2008, The Engineering of Sport 7(1):215–222 (12 non-cyclists, large shift); Rae & Kerr 2010, Physiother Res Int 15(4):245 (7 women)',
  },
  {
    id: 'steady-effort-oxygen',
    effect: 'neither',
    when: ['steadyLongEfforts'],
    text: 'Oxygen uptake at a steady effort was not changed.',
    evidence: 'small-trials',
    source:
      'Van Sickle & Hull 2007, J Biomech 40:1262–1267 (11 riders); Paton 2009, IJSPP 4:517–523 (by way of a secondary citation)',
  },
  {
    id: 'time-trial-no-surges',
    effect: 'serves',
    when: ['timeTrial'],
    text: 'What it costs shows in surges, which such an effort has few of.',
    evidence: 'common-practice',
    source: 'common practice, no source',
  },
  {
    id: 'run-after-ride',
    effect: 'serves',
    when: ['runsAfterRiding'],
    text: 'The run after the ride was faster or cheaper in some trials, and the first kilometre slower in another.',
    evidence: 'mixed',
    source:
      'Paton & Jardine 2012, J Sci Cycling 1(1):15–20 (12); Evans et al. 2021, Sensors 21(17):5899 (7); Millour et al. 2020, J Sci Cycling (7); against: Viker & Richardson 2013, J Sports Sci 31(9):1007–1014 (13)',
  },
  {
    id: 'forefoot-numbness',
    effect: 'serves',
    when: ['forefootNumbnessPersists', 'forefootNumbnessScreened'],
    text: 'Forefoot pain fell in a series of riders whose cleats went back; there was no comparison group.',
    evidence: 'small-trials',
    source: 'clinical series 2024, J Sports Med Phys Fitness, PubMed 38512304 (21 riders)',
  },
  {
    id: 'side-difference',
    effect: 'serves',
    when: ['largeSideDifference'],
    text: 'A shorter foot lever changes less with the length of the foot, so the sides come closer.',
    evidence: 'reasoning',
    source: 'house rule, from the leg chain',
  },
  {
    id: 'surging',
    effect: 'costs',
    when: ['surgingBunchRacing'],
    text: 'One small trial saw the calf work harder in sprints. Power may rise more slowly; by how much is not known.',
    evidence: 'small-trials',
    source:
      'Millour et al. 2020, J Sci Cycling, doi 10.28985/0620.jsc.02 (7 triathletes, ±5 mm: soleus +8.8 % in sprints, no change of performance); rise time: common practice, no source',
  },
  {
    id: 'standing',
    effect: 'costs',
    when: ['standsOften'],
    text: 'Out of the saddle it feels other, and the spring of the ankle is missed.',
    evidence: 'common-practice',
    source: 'common practice, no source',
  },
  {
    id: 'walking',
    effect: 'costs',
    when: ['walksInTheShoes'],
    text: 'A cleat under the arch is poor to walk on and can slip.',
    evidence: 'common-practice',
    source: 'common practice, no source',
  },
  {
    id: 'toe-overlap',
    effect: 'costs',
    when: ['twistyOrSlowRiding'],
    text: 'The toes come nearer to the front wheel by as much as the cleat goes back: check at full lock.',
    evidence: 'reasoning',
    source: 'house rule, from the geometry',
  },
];
