import type { MeasurementKindId, PositionFieldId } from '@studio/fit-math';
import type { Side } from '../side.js';
import type { SheetWords } from './sheet-words.js';

const figures: Readonly<Record<PositionFieldId, string>> = {
  saddleHeightMm: 'Sattelhöhe',
  saddleSetbackMm: 'Nachsitz, Sattelspitze',
  saddleSetbackAt80Mm: 'Nachsitz bei 80 mm Sattelbreite',
  saddleTiltDeg: 'Sattelneigung, Nase hoch',
  barReachMm: 'Sattelspitze bis Lenker',
  barDropMm: 'Überhöhung bis Lenker',
  hoodReachMm: 'Sattelspitze bis Griffe',
  hoodDropMm: 'Überhöhung bis Griffe',
  barTiltDeg: 'Lenkerneigung, nach oben gedreht',
  barWidthMm: 'Lenkerbreite',
  crankLengthMm: 'Kurbellänge',
  cleatBehindMth1LeftMm: 'Schuhplatte links hinter dem Großzehengrundgelenk',
  cleatBehindMth1RightMm: 'Schuhplatte rechts hinter dem Großzehengrundgelenk',
  cleatFromNoseLeftMm: 'Schuhplatte links von der Schuhspitze',
  cleatFromNoseRightMm: 'Schuhplatte rechts von der Schuhspitze',
  cleatRotationLeftDeg: 'Schuhplatte links, Zehen nach außen',
  cleatRotationRightDeg: 'Schuhplatte rechts, Zehen nach außen',
  cleatOutwardLeftMm: 'Fuß links außerhalb der Pedalmitte',
  cleatOutwardRightMm: 'Fuß rechts außerhalb der Pedalmitte',
  shimLeftMm: 'Unterlagen unter der Schuhplatte links',
  shimRightMm: 'Unterlagen unter der Schuhplatte rechts',
};

const kinds: Readonly<Record<MeasurementKindId, string>> = {
  inseam: 'Schrittlänge',
  thigh_length: 'Oberschenkel',
  shank_length: 'Unterschenkel',
  foot_lever: 'Fußhebel',
  ankle_above_spindle: 'Knöchel über der Pedalachse',
  foot_pitch: 'Fußneigung nahe dem unteren Totpunkt',
  knee_flexion_straightest: 'Kniebeugung am gestrecktesten Punkt',
  mth1_from_heel: 'Großzehengrundgelenk',
  cleat_from_heel: 'Mitte der Schuhplatte',
  stature: 'Körpergröße',
  trochanter_height: 'Höhe des Trochanters',
  knee_height: 'Kniehöhe',
  malleolus_height: 'Knöchelhöhe',
  ankle_from_heel: 'Knöchel entlang der Sohle',
  mth5_from_heel: 'Kleinzehengrundgelenk',
};

const onSide: Readonly<Record<Side, string>> = { left: 'links', right: 'rechts' };
const ofSide: Readonly<Record<Side, string>> = { left: 'linkes', right: 'rechtes' };

export const de: SheetWords = {
  decimalMark: ',',
  months: 'Januar Februar März April Mai Juni Juli August September Oktober November Dezember'.split(' '),
  day: (date, month, year) => `${date}. ${month} ${year}`,

  titles: { rider: 'Ihre Einstellung', studio: 'Protokoll der Einstellung' },
  fittedOn: (day, fitter) => `Eingestellt am ${day} von ${fitter}`,
  signedOn: (day) => `Unterschrieben am ${day}`,
  draft: 'Entwurf: noch nicht unterschrieben',
  amendedOn: (days) => `Nachträge vom ${days}: siehe „Nachträge“`,
  pageOf: 'Seite {page} von {count}',
  table: 'Tabelle',

  position: {
    heading: 'Position',
    none: 'Es wurde noch keine Position gemessen.',
    beforeAndAfter: 'Position vorher und nachher',
    columns: ['', 'Vorher', 'Nachher', 'Änderung'],
    figures,
    parts: (side) => `Teile am Fuß ${onSide[side]}`,
    noParts: 'keine',
    definitions: (seatTubeAngle) =>
      `Sattelhöhe: Tretlagermitte bis Satteloberkante entlang des Sitzrohrs (${seatTubeAngle}° zur Waagrechten). Nachsitz und Längen sind waagrecht, Überhöhungen senkrecht. Ein Strich: nicht gemessen.`,
  },

  drawings: {
    heading: 'Zeichnungen',
    found: 'vorher',
    left: 'nachher',
    side: {
      title: 'Rad und Fahrer von der Seite',
      points: {
        bottomBracket: 'Tretlager',
        saddleTop: 'Satteloberkante',
        saddleTip: 'Sattelspitze',
        barCentre: 'Lenker',
        hoods: 'Griffe',
        hip: 'Hüfte',
        knee: 'Knie',
        ankle: 'Knöchel',
        spindle: 'Pedalachse',
        heel: 'Ferse',
        toe: 'Zehen',
        shoulder: 'Schulter',
        elbow: 'Ellbogen',
      },
      toScale: 'Maßstäblich, vom Tretlager aus; Sattel und Lenker wie gemessen.',
      leg: (side) =>
        `Das ${side === 'left' ? 'linke' : 'rechte'} Bein am gestrecktesten Punkt, aus den Messungen berechnet, der Fuß wie vorher gehalten.`,
      noLeg: 'Es ist kein Bein gezeichnet: Es wurde nicht gemessen.',
      upperBody: 'Rumpf und Arme nach veröffentlichten Anteilen der Körpergröße: nur die Form.',
      outOfReach: 'Wo ein Bein fehlt, würde es das Pedal nicht erreichen.',
    },
    knee: {
      title: (side) => `Kniebeugung über eine Umdrehung, ${ofSide[side]} Bein`,
      subtitle: 'Aus den Messungen berechnet, der Fuß wie vorher gehalten; 0° ist ein gestrecktes Bein',
      crank: 'Kurbel, Grad von oben',
      knee: 'Kniebeugung, Grad',
      straightest: 'am gestrecktesten',
    },
    feet: {
      title: 'Füße und Schuhplatten von unten',
      sides: { left: 'linker Fuß', right: 'rechter Fuß' },
      mth1: 'Großzehe',
      mth5: 'Kleinzehe',
      midfoot: 'Mittelfuß',
      notes: [
        'Maßstäblich entlang des Fußes, mm vom Fersenende des Schuhs; Breiten sind nur Form. Grau: Bereich der Schlitze.',
        'Großzehe und Kleinzehe: deren Grundgelenk. Mittelfuß: die halbe Länge des Schuhs.',
      ],
    },
  },

  plan: {
    heading: 'Plan der Schuhplatten',
    place: ({ side, way, back, fromHeel, behindMth1, shortOfMidfoot }) =>
      `${side === 'left' ? 'Links' : 'Rechts'}: ${way}, die Schuhplatte ${back} mm zurück auf ${fromHeel} mm vom Fersenende des Schuhs, ${behindMth1} mm hinter dem Großzehengrundgelenk und ${shortOfMidfoot} mm vor dem Mittelfuß.`,
    saddle: (change, within) =>
      `Berechnete Änderung der Sattelhöhe ${change} mm (± ${within} mm), der Lenker mit ihr.`,
    why: (because) => `Warum: ${because}`,
    formula: (version, offset) => `Formelversion ${version}; eigener Zuschlag des Studios ${offset} mm.`,
    footPitch: 'Der Fuß gehalten wie in der aufgezeichneten Bewegung.',
  },

  shoeWork: {
    heading: 'Arbeit an den Schuhen',
    what: (shoe, way, fixing) => `${shoe}, links und rechts: ${way}, ${fixing}`,
    planned: (what) => `${what}: geplant, es wurde noch keine Sohle angefasst.`,
    doneOn: (what, day) => `${what}, am ${day}.`,
    curing: (day) => `Aushärten: bis ${day}.`,
    states: {
      opened: 'Die Einwilligung ist noch nicht unterschrieben.',
      consented: '',
      in_work: 'Die Arbeit ist nicht fertig: Fahren Sie nicht mit diesen Schuhen.',
      curing: 'Die Arbeit ist nicht fertig: Fahren Sie nicht mit diesen Schuhen.',
      to_collect: 'Die Übergabe ist nicht abgeschlossen: Fahren Sie nicht mit diesen Schuhen.',
      collected: 'Übergeben; die Schrauben sind nach der ersten Fahrt noch einmal nachzuziehen.',
      done: 'Übergeben, und die Schrauben nach der ersten Fahrt noch einmal nachgezogen.',
      abandoned:
        'Die Arbeit wurde vor dem Ende abgebrochen: Fahren Sie mit diesen Schuhen nur, wenn wir es Ihnen gesagt haben.',
    },
    consented: (name, day, textVersion) =>
      `Einwilligung unterschrieben von ${name} am ${day}, Textversion ${textVersion}.`,
    shoe: (shoe, side) => `${shoe}, ${onSide[side]}`,
    torques: ['Schrauben der Schuhplatten', 'Bei der Übergabe', 'Nach der ersten Fahrt'],
    after: {
      'not-reversible':
        'An den Sohlen wurde gearbeitet: Das lässt sich nicht rückgängig machen, und die Garantie des Herstellers entfällt wahrscheinlich.',
      'strength-untested':
        'Wie fest die Sohlen noch sind, hat niemand geprüft. Sehen Sie sie vor jeder Fahrt an; bei einem Riss, einem Knarzen oder einem Teil, das sich bewegt, fahren Sie nicht damit und bringen sie uns.',
      'release-first':
        'Vor dem Fahren: Drehen Sie jeden Fuß im Stand mehrmals aus dem Pedal. Kommt einer nicht heraus, fahren Sie nicht.',
      'easy-first-ride': 'Machen Sie die erste Fahrt locker und abseits des Verkehrs.',
      'torque-again':
        'Lassen Sie die Schrauben nach der ersten Fahrt noch einmal auf ihr Drehmoment nachziehen. Eine lose Schuhplatte löst womöglich nicht aus.',
    },
  },
  advice: { heading: 'Die ersten Wochen' },
  next: {
    heading: 'Nächste Termine',
    says: 'Wir fragen nach, wie es geht, und messen wenn nötig noch einmal, am:',
  },
  measured: {
    heading: 'Gemessen',
    columns: ['', 'Wert', '95 %', 'Mit'],
    kind: (kind, side) => (side === null ? kinds[kind] : `${kinds[kind]}, ${onSide[side]}`),
    methods: {
      tape: 'Maßband',
      calliper: 'Messschieber',
      goniometer: 'Winkelmesser',
      video: 'Video',
      level: 'Wasserwaage',
      estimate: 'Schätzung',
    },
  },
  signature: {
    heading: 'Unterschrift',
    says: (fitter, day, hash) =>
      `Unterschrieben von ${fitter} am ${day}. SHA-256 des unterschriebenen Protokolls: ${hash}.`,
  },
  amendments: {
    heading: 'Nachträge',
    says: 'Nach der Unterschrift geschrieben; das Protokoll selbst bleibt, wie es unterschrieben wurde.',
    by: (day, who) => `${day}, ${who}`,
  },
  howToRead: {
    heading: 'So ist dies zu lesen',
    says: '„Vorher“ ist, wie Sie kamen, „nachher“, wie Sie gingen. Eine Änderung mit * ist nicht größer, als zweimaliges Messen desselben ergeben kann. Berechnete Winkel und Stellen gelten, solange der Fuß gehalten wird wie vorher: Sie werden bei der Nachkontrolle noch einmal gemessen. Dieses Blatt ist kein medizinischer Rat.',
  },

  partNames: {
    three_bolt_cleat: 'Drei-Loch-Schuhplatte',
    two_bolt_cleat: 'Zwei-Loch-Schuhplatte',
    four_bolt_cleat: 'Vier-Loch-Schuhplatte',
    within_slots: 'innerhalb der Schlitze',
    rear_plate_12: 'Versatzplatte nach hinten, 12 mm',
    rear_plate_24: 'Versatzplatte nach hinten, 24 mm',
    slot_extension: 'verlängerte Schlitze',
    arch_base_three_bolt: 'Sockel im Mittelfuß, drei Löcher',
    arch_base_four_bolt: 'Sockel im Mittelfuß, vier Löcher',
    drilled: 'gebohrt oder geschnitten',
    bonded: 'geklebt',
    drilled_and_bonded: 'gebohrt und geklebt',
    pedal_washer: 'Unterlegscheiben am Pedal',
    long_axle: 'lange Pedalachse',
    pedal_extender: 'Pedalverlängerung',
    fixed_cleat: 'Schuhplatte ohne Bewegungsfreiheit',
    small_float_cleat: 'Schuhplatte mit wenig Bewegungsfreiheit',
    large_float_cleat: 'Schuhplatte mit viel Bewegungsfreiheit',
    cleat_shim: 'Unterlage unter der Schuhplatte',
    cleat_wedge: 'Keil unter der Schuhplatte',
    shoe_wedge: 'Keil im Schuh',
    insole: 'Einlage',
    platform_pedal: 'Plattformpedal',
  },
  cautions: {
    'foot-pitch-drifts':
      'Berechnet mit dem Fuß, wie er jetzt gehalten wird. Nach einer Änderung der Schuhplatte ändert sich das: bei der Nachkontrolle neu messen.',
    'toe-overlap':
      'Die Zehen kommen nach vorn: vor dem Fahren ihren Abstand zum Vorderrad bei vollem Lenkeinschlag prüfen.',
    'in-stages':
      'Eine große Änderung: mit kurzen, lockeren Fahrten daran gewöhnen und das Ausklicken beider Füße im Stand üben.',
    'not-reversible':
      'Die Sohle wird geschnitten oder gebohrt: Das lässt sich nicht rückgängig machen, und die Garantie des Herstellers entfällt wahrscheinlich. Zuerst die schriftliche Einwilligung.',
  },
};
