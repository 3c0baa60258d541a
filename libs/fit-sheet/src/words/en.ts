import { measurementKind, type MeasurementKindId, type PositionFieldId } from '@studio/fit-math';
import type { SheetWords } from './sheet-words.js';

const figures: Readonly<Record<PositionFieldId, string>> = {
  saddleHeightMm: 'Saddle height',
  saddleSetbackMm: 'Saddle setback, tip',
  saddleSetbackAt80Mm: 'Saddle setback, at 80 mm width',
  saddleTiltDeg: 'Saddle tilt, nose up',
  barReachMm: 'Saddle tip to bars',
  barDropMm: 'Drop to the bars',
  hoodReachMm: 'Saddle tip to hoods or grips',
  hoodDropMm: 'Drop to hoods or grips',
  barTiltDeg: 'Bar tilt, turned up',
  barWidthMm: 'Bar width',
  crankLengthMm: 'Crank length',
  cleatBehindMth1LeftMm: 'Left cleat behind the first metatarsal head',
  cleatBehindMth1RightMm: 'Right cleat behind the first metatarsal head',
  cleatFromNoseLeftMm: 'Left cleat from the nose of the shoe',
  cleatFromNoseRightMm: 'Right cleat from the nose of the shoe',
  cleatRotationLeftDeg: 'Left cleat, toe out',
  cleatRotationRightDeg: 'Right cleat, toe out',
  cleatOutwardLeftMm: 'Left foot outside the middle of the pedal',
  cleatOutwardRightMm: 'Right foot outside the middle of the pedal',
  shimLeftMm: 'Shims under the left cleat',
  shimRightMm: 'Shims under the right cleat',
};

const sides = { left: 'Left', right: 'Right' } as const;

export const en: SheetWords = {
  decimalMark: '.',
  months: 'January February March April May June July August September October November December'.split(' '),
  day: (date, month, year) => `${date} ${month} ${year}`,

  titles: { rider: 'Your fit', studio: 'Fit record' },
  fittedOn: (day, fitter) => `Fitted on ${day} by ${fitter}`,
  signedOn: (day) => `Signed on ${day}`,
  draft: 'Draft: not signed yet',
  amendedOn: (days) => `Amended on ${days}: see “Amendments”`,
  pageOf: 'Page {page} of {count}',
  table: 'Table',

  position: {
    heading: 'Position',
    none: 'No position has been measured yet.',
    beforeAndAfter: 'Position before and after',
    columns: ['', 'As found', 'As left', 'Change'],
    figures,
    parts: (side) => `Parts at the ${side} foot`,
    noParts: 'none',
    definitions: (seatTubeAngle) =>
      `Saddle height: bottom bracket to saddle top along the seat tube (${seatTubeAngle}° to the horizontal). Setbacks and reaches are horizontal, drops vertical. A dash: not measured.`,
  },

  drawings: {
    heading: 'Drawings',
    found: 'as found',
    left: 'as left',
    side: {
      title: 'Bike and rider from the side',
      points: {
        bottomBracket: 'bottom bracket',
        saddleTop: 'saddle top',
        saddleTip: 'saddle tip',
        barCentre: 'bars',
        hoods: 'hoods or grips',
        hip: 'hip',
        knee: 'knee',
        ankle: 'ankle',
        spindle: 'pedal spindle',
        heel: 'heel',
        toe: 'toe',
        shoulder: 'shoulder',
        elbow: 'elbow',
      },
      toScale: 'To scale, from the bottom bracket; saddle and bars as measured.',
      leg: (side) => `The ${side} leg at its straightest, computed as measured, the foot held as found.`,
      noLeg: 'No leg is drawn: it was not measured.',
      upperBody: 'Trunk and arms by published shares of the stature: shape only.',
      outOfReach: 'Where a leg is missing it would not reach the pedal.',
    },
    knee: {
      title: (side) => `Knee flexion over one turn, ${side} leg`,
      subtitle: 'Computed from what was measured, the foot held as found; 0° is a straight leg',
      crank: 'crank, degrees from top',
      knee: 'knee flexion, degrees',
      straightest: 'straightest',
    },
    feet: {
      title: 'Feet and cleats from below',
      sides: { left: 'left foot', right: 'right foot' },
      mth1: 'first head',
      mth5: 'fifth head',
      midfoot: 'midfoot',
      notes: [
        'To scale along the foot, mm from the heel end of the shoe; widths are shape only. Grey: reach of the slots.',
        'First and fifth head: of the metatarsal bones. Midfoot: half the length of the shoe.',
      ],
    },
  },

  plan: {
    heading: 'Cleat plan',
    place: ({ side, way, back, fromHeel, behindMth1, shortOfMidfoot }) =>
      `${sides[side]}: ${way}, the cleat ${back} mm back to ${fromHeel} mm from the heel end of the shoe, ${behindMth1} mm behind the first metatarsal head and ${shortOfMidfoot} mm short of the midfoot.`,
    saddle: (change, within) => `Computed saddle change ${change} mm (± ${within} mm), the bars with it.`,
    why: (because) => `Why: ${because}`,
    formula: (version, offset) => `Formula version ${version}; the studio’s own offset ${offset} mm.`,
    footPitch: 'The foot held as in the captured motion.',
  },

  shoeWork: {
    heading: 'Shoe work',
    what: (shoe, way, fixing) => `${shoe}, left and right: ${way}, ${fixing}`,
    planned: (what) => `${what}: planned, no sole has been touched.`,
    doneOn: (what, day) => `${what} on ${day}.`,
    curing: (day) => `Time to cure: until ${day}.`,
    states: {
      opened: 'The consent is not signed yet.',
      consented: '',
      in_work: 'The work is not finished: do not ride these shoes.',
      curing: 'The work is not finished: do not ride these shoes.',
      to_collect: 'The hand-over is not finished: do not ride these shoes.',
      collected: 'Handed over; the bolts are to be tightened again after the first ride.',
      done: 'Handed over, and the bolts tightened again after the first ride.',
      abandoned:
        'The work was given up before it was finished: do not ride these shoes unless we told you so.',
    },
    consented: (name, day, textVersion) =>
      `Consent signed by ${name} on ${day}, text version ${textVersion}.`,
    shoe: (shoe, side) => `${shoe}, ${side}`,
    torques: ['Cleat bolts', 'At the hand-over', 'After the first ride'],
    after: {},
  },
  advice: { heading: 'The first weeks' },
  next: {
    heading: 'Next dates',
    says: 'We ask how it goes, and measure again if need be, on:',
  },
  measured: {
    heading: 'Measured',
    columns: ['', 'Value', '95 %', 'By'],
    kind: (kind: MeasurementKindId, side) => {
      const { name } = measurementKind(kind);
      return side === null ? name : `${name}, ${side}`;
    },
    methods: {},
  },
  signature: {
    heading: 'Signature',
    says: (fitter, day, hash) => `Signed by ${fitter} on ${day}. SHA-256 of the record as signed: ${hash}.`,
  },
  amendments: {
    heading: 'Amendments',
    says: 'Written after the signature; the record itself stays as it was signed.',
    by: (day, who) => `${day}, ${who}`,
  },
  howToRead: {
    heading: 'How to read this',
    says: '“As found” is how you came, “as left” how you went. A change marked * is no larger than measuring the same twice may give. Angles and places that were computed hold with the foot held as it was: they are measured again at the follow-up. This sheet is no medical advice.',
  },

  partNames: {},
  cautions: {},
};
