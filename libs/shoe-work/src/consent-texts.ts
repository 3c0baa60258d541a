export type ConsentLanguage = 'en' | 'de';

/** What a client signs before shoes are worked on. A wording that was signed is never edited: another is added, last. */
export const consentTexts: readonly {
  readonly version: string;
  readonly texts: Readonly<Record<ConsentLanguage, string>>;
}[] = [
  {
    version: '1',
    texts: {
      en:
        'My shoes will be cut, drilled or bonded. This cannot be undone. The maker’s warranty on them is likely void, and ' +
        'nobody has tested how strong the soles are afterwards. I was told of the ways that leave the soles whole. I will ' +
        'not ride before both feet have come out of the pedals at a standstill, I will ride easily at first, and I will ' +
        'have the bolts tightened again after my first ride. I can change my mind until the soles are worked on.',
      de:
        'Meine Schuhe werden geschnitten, gebohrt oder beklebt. Das lässt sich nicht rückgängig machen. Die ' +
        'Herstellergarantie erlischt wahrscheinlich, und niemand hat geprüft, wie fest die Sohlen danach sind. Mir wurden ' +
        'die Wege genannt, bei denen die Sohlen ganz bleiben. Ich fahre nicht, bevor sich beide Füße im Stand aus den ' +
        'Pedalen gelöst haben, fahre zuerst locker und lasse die Schrauben nach der ersten Fahrt nachziehen. Ich kann es ' +
        'mir anders überlegen, bis die Sohlen bearbeitet werden.',
    },
  },
];

export const newestConsentText = consentTexts.at(-1) as (typeof consentTexts)[number];
