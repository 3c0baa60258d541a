import type { FeetWords, SideViewWords } from '@studio/drawings';
import type { MeasurementKindId, PositionFieldId } from '@studio/fit-math';
import type { ShoeWorkState } from '@studio/shoe-work';
import type { Side } from '../side.js';

/** The languages a sheet can be written in. */
export const sheetLanguages = ['en', 'de'] as const;
export type SheetLanguage = (typeof sheetLanguages)[number];

/** Everything a sheet says of itself, in one language; what people wrote stays as they wrote it. */
export interface SheetWords {
  readonly decimalMark: '.' | ',';
  readonly months: readonly string[];
  readonly day: (date: number, month: string, year: number) => string;

  readonly titles: Readonly<Record<'rider' | 'studio', string>>;
  readonly fittedOn: (day: string, fitter: string) => string;
  readonly signedOn: (day: string) => string;
  readonly draft: string;
  readonly amendedOn: (days: string) => string;
  /** With `{page}` and `{count}`. */
  readonly pageOf: string;
  /** What a table is called by who cannot see it. */
  readonly table: string;

  readonly position: {
    readonly heading: string;
    readonly none: string;
    readonly beforeAndAfter: string;
    readonly columns: readonly string[];
    readonly figures: Readonly<Record<PositionFieldId, string>>;
    readonly parts: (side: Side) => string;
    readonly noParts: string;
    readonly definitions: (seatTubeAngle: string) => string;
  };

  readonly drawings: {
    readonly heading: string;
    readonly found: string;
    readonly left: string;
    readonly side: {
      readonly title: string;
      readonly points: SideViewWords['points'];
      readonly toScale: string;
      readonly leg: (side: Side) => string;
      readonly noLeg: string;
      readonly upperBody: string;
      readonly outOfReach: string;
    };
    readonly knee: {
      readonly title: (side: Side) => string;
      readonly subtitle: string;
      readonly crank: string;
      readonly knee: string;
      readonly straightest: string;
    };
    readonly feet: Omit<FeetWords, 'found' | 'left'> & { readonly title: string };
  };

  readonly plan: {
    readonly heading: string;
    readonly place: (of: {
      readonly side: Side;
      readonly way: string;
      readonly back: string;
      readonly fromHeel: string;
      readonly behindMth1: string;
      readonly shortOfMidfoot: string;
    }) => string;
    readonly saddle: (change: string, within: string) => string;
    readonly why: (because: string) => string;
    readonly formula: (version: string, offset: string) => string;
    readonly footPitch: string;
  };

  readonly shoeWork: {
    readonly heading: string;
    readonly what: (shoe: string, way: string, fixing: string) => string;
    readonly planned: (what: string) => string;
    readonly doneOn: (what: string, day: string) => string;
    readonly curing: (day: string) => string;
    readonly states: Readonly<Record<ShoeWorkState, string>>;
    readonly consented: (name: string, day: string, textVersion: string) => string;
    readonly shoe: (shoe: string, side: Side) => string;
    readonly torques: readonly string[];
    /** What a rider has to know of shoes that were worked on, by its code; one that is not among them is told in English. */
    readonly after: Readonly<Record<string, string>>;
  };

  readonly advice: { readonly heading: string };
  readonly next: { readonly heading: string; readonly says: string };
  readonly measured: {
    readonly heading: string;
    readonly columns: readonly string[];
    readonly kind: (kind: MeasurementKindId, side: Side | null) => string;
    /** By the method's name; one that is not among them is told by its name. */
    readonly methods: Readonly<Record<string, string>>;
  };
  readonly signature: {
    readonly heading: string;
    readonly says: (fitter: string, day: string, hash: string) => string;
  };
  readonly amendments: {
    readonly heading: string;
    readonly says: string;
    readonly by: (day: string, who: string) => string;
  };
  readonly howToRead: { readonly heading: string; readonly says: string };

  /** Parts and ways of going back by their ids; one that is not among them is told by its id, `_` as spaces. */
  readonly partNames: Readonly<Record<string, string>>;
  /** Cautions of formulas by their codes; one that is not among them is told in English. */
  readonly cautions: Readonly<Record<string, string>>;
}
