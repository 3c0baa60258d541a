import type { SheetLanguage } from '../words/index.js';

type Text = Readonly<Record<SheetLanguage, string>>;

/** What a rider is told to do in the weeks after a change, by how far a cleat went. */
export interface AdviceStage {
  readonly id: 'cleats_kept' | 'small_change' | 'medium_change' | 'large_change';
  /** It holds from here on, mm either way of the cleat that went farthest. */
  readonly fromMm: number;
  readonly items: readonly Text[];
}

const weeks = (en: string, de: string): Text => ({
  en: `Ride short and easy at first; take ${en} to come back to your usual hours, and leave hard efforts until the second half of them.`,
  de: `Fahren Sie anfangs kurz und locker; nehmen Sie sich ${de}, bis Sie wieder so viel fahren wie gewohnt, und lassen Sie harte Belastungen für die zweite Hälfte davon.`,
});
const release: Text = {
  en: 'Before the first ride: click out of both pedals at a standstill, several times. Turn the bars fully and see that no toe touches the wheel.',
  de: 'Vor der ersten Fahrt: Klicken Sie im Stand mehrmals aus beiden Pedalen aus. Lenken Sie ganz ein und prüfen Sie, dass keine Schuhspitze das Rad berührt.',
};
const bolts: Text = {
  en: 'After the first ride have the cleat bolts tightened again to their torque.',
  de: 'Lassen Sie nach der ersten Fahrt die Schrauben der Schuhplatten noch einmal auf ihr Drehmoment nachziehen.',
};
const calf: Text = {
  en: 'Calves and the soles of the feet carry the load elsewhere now: climb seated and keep the cadence up until they no longer feel it the day after.',
  de: 'Waden und Fußsohlen werden jetzt anders belastet: Fahren Sie Anstiege im Sitzen und mit hoher Trittfrequenz, bis sie am Tag danach nichts mehr spüren.',
};
const traffic: Text = {
  en: 'Ride the first times away from traffic, until clicking in and out is second nature again.',
  de: 'Fahren Sie die ersten Male abseits des Verkehrs, bis das Ein- und Ausklicken wieder selbstverständlich ist.',
};
const nothingMore: Text = {
  en: 'Change nothing more by yourself while you get used to it.',
  de: 'Ändern Sie selbst nichts weiter, solange Sie sich daran gewöhnen.',
};
const stop: Text = {
  en: 'Pain that is new, grows or stays after the ride, or a foot that goes numb: stop riding this position and call us. Chest pain, breathlessness at rest, or a leg that swells or goes cold: call emergency services.',
  de: 'Schmerzen, die neu sind, zunehmen oder nach der Fahrt bleiben, oder ein tauber Fuß: Fahren Sie nicht weiter in dieser Position und rufen Sie uns an. Schmerzen in der Brust, Atemnot in Ruhe oder ein Bein, das anschwillt oder kalt wird: Rufen Sie den Notruf.',
};

/** Raised when a text or a boundary changes; a session keeps the texts it was signed with. */
export const adviceVersion = 1;

/** Common practice, no source: boundaries, weeks and texts. From small to large. */
export const adviceStages: readonly AdviceStage[] = [
  { id: 'cleats_kept', fromMm: 0, items: [weeks('2 weeks', '2 Wochen Zeit'), nothingMore, stop] },
  {
    id: 'small_change',
    fromMm: 0.5,
    items: [weeks('2 weeks', '2 Wochen Zeit'), release, bolts, nothingMore, stop],
  },
  {
    id: 'medium_change',
    fromMm: 10,
    items: [weeks('3 weeks', '3 Wochen Zeit'), release, bolts, calf, nothingMore, stop],
  },
  {
    id: 'large_change',
    fromMm: 30,
    items: [weeks('4 weeks', '4 Wochen Zeit'), release, bolts, traffic, calf, nothingMore, stop],
  },
];
