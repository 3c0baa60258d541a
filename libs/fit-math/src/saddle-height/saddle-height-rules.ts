/** What a saddle-height rule can be asked with; a rule is left out when one of its inputs is not known. */
export interface SaddleHeightInputs {
  /** Floor to crotch, standing, book pressed up firmly. 400–1200. */
  readonly inseamMm?: number;
  /** Floor to greater trochanter, standing. 500–1300. */
  readonly trochanterHeightMm?: number;
  /** Standing, barefoot. 1200–2200. */
  readonly statureMm?: number;
  /** Wanted knee flexion at the straightest point, **riding** (dynamic), not with the rider stopped. 20–60. */
  readonly dynamicKneeFlexionDeg?: number;
}

export type SaddleHeightInputName = keyof SaddleHeightInputs;

/** A published rule, as published: where it measures from is part of it. */
export interface SaddleHeightRule {
  readonly id:
    | 'inseam-0.883'
    | 'inseam-1.09'
    | 'inseam-and-knee-flexion'
    | 'trochanter-1.00'
    | 'stature-regression';
  /** From here to the saddle top, along the seat tube. From the spindle the crank length is included. */
  readonly datum: 'bottom-bracket' | 'pedal-spindle';
  readonly uses: readonly SaddleHeightInputName[];
  readonly source: string;
  /** Height in the rule's own datum, mm. */
  readonly heightMm: (inputs: Readonly<Record<SaddleHeightInputName, number>>) => number;
}

export const saddleHeightRules: readonly SaddleHeightRule[] = [
  {
    id: 'inseam-0.883',
    datum: 'bottom-bracket',
    uses: ['inseamMm'],
    source:
      'LeMond & Gordis 1987 (book and datum from memory); multiplier as in Peveler et al. 2005, J Exerc Physiol Online 8(1):51–55',
    heightMm: ({ inseamMm }) => 0.883 * inseamMm,
  },
  {
    id: 'inseam-1.09',
    datum: 'pedal-spindle',
    uses: ['inseamMm'],
    source:
      'Hamley & Thomas 1967, J Physiol 191:55P–57P (citation from memory); multiplier as in Peveler et al. 2005, J Exerc Physiol Online 8(1):51–55',
    heightMm: ({ inseamMm }) => 1.09 * inseamMm,
  },
  {
    id: 'inseam-and-knee-flexion',
    datum: 'pedal-spindle',
    uses: ['inseamMm', 'dynamicKneeFlexionDeg'],
    source:
      'Ferrer-Roca et al. 2012, J Strength Cond Res 26(11):3025–3029; coefficients from memory, held to the published 108.6–110.4 % of inseam',
    heightMm: ({ inseamMm, dynamicKneeFlexionDeg }) => 221 + 0.896 * inseamMm - 1.5 * dynamicKneeFlexionDeg,
  },
  {
    id: 'trochanter-1.00',
    datum: 'pedal-spindle',
    uses: ['trochanterHeightMm'],
    source: 'Nordeen-Snyder 1977, Med Sci Sports 9:113–117 (from memory); 10 women',
    heightMm: ({ trochanterHeightMm }) => trochanterHeightMm,
  },
  {
    id: 'stature-regression',
    datum: 'bottom-bracket',
    uses: ['statureMm'],
    source:
      'García-López, Fundación Ciclista de Euskadi: trained riders, r = 0.90, called unsafe for individuals by its authors; datum not stated, taken from the size of its results',
    heightMm: ({ statureMm }) => 0.611 * statureMm - 327.7,
  },
];
