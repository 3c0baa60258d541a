import type { MessageTemplate } from '../template.js';

const followUpLink = {
  link: {
    kind: 'link',
    meaning: 'The one-time link to the questions',
    sample: 'https://fitting.example/follow-up/0199',
    required: true,
  },
} as const;

export const fitSheetReady: MessageTemplate = {
  name: 'fit_sheet_ready',
  purpose: 'The sheet with the position of the bike can be read',
  to: 'client',
  about: 'fit_sheet',
  unasked: false,
  byPhone: true,
  version: 1,
  placeholders: {
    link: {
      kind: 'link',
      meaning: 'Where the sheet is, for this client alone',
      sample: 'https://fitting.example/fit-sheets/0199',
      required: true,
    },
  },
  texts: {
    en: {
      subject: 'The sheet of your bike fit',
      body: `Hello {{givenName}},

here is the sheet with your position, to keep and to take to a workshop:

{{link}}

The link is yours alone. Check the bolts after the first ride. If something hurts or goes numb, ride easily and tell us.

{{studioName}}`,
    },
    de: {
      subject: 'Das Blatt zu Ihrer Sitzposition',
      body: `Guten Tag {{givenName}} {{familyName}},

hier ist das Blatt mit Ihrer Position, zum Aufheben und für die Werkstatt:

{{link}}

Der Link ist nur für Sie. Prüfen Sie die Schrauben nach der ersten Fahrt. Wenn etwas schmerzt oder taub wird, fahren Sie locker und sagen Sie uns Bescheid.

{{studioName}}`,
    },
  },
};

export const followUp: MessageTemplate = {
  name: 'follow_up',
  purpose: 'How it goes, some time after a fit',
  to: 'client',
  about: 'follow_up',
  unasked: true,
  // Who cannot be reached by mail is phoned by those who fit, as the plan says: the answers are about health.
  byPhone: false,
  version: 1,
  placeholders: {
    ...followUpLink,
    sessionOn: { kind: 'day', meaning: 'The day of the fit', sample: '2026-02-16' },
  },
  texts: {
    en: {
      subject: 'How is your new position?',
      body: `Hello {{givenName}},

your bike was fitted on {{sessionOn}}. Please tell us how it goes; it takes three minutes:

{{link}}

The link is yours alone and works once. If something worries you, do not wait for us: see a doctor, and in an emergency call your local emergency number.

{{studioName}}`,
    },
    de: {
      subject: 'Wie geht es mit der neuen Position?',
      body: `Guten Tag {{givenName}} {{familyName}},

am {{sessionOn}} haben wir Ihr Rad angepasst. Bitte sagen Sie uns, wie es geht; es dauert drei Minuten:

{{link}}

Der Link ist nur für Sie und gilt einmal. Wenn Ihnen etwas Sorgen macht, warten Sie nicht auf uns: Gehen Sie zum Arzt, und rufen Sie im Notfall den örtlichen Notruf.

{{studioName}}`,
    },
  },
};

export const followUpReminder: MessageTemplate = {
  name: 'follow_up_reminder',
  purpose: 'The questions after a fit are still unanswered',
  to: 'client',
  about: 'follow_up',
  unasked: true,
  // Who cannot be reached by mail is phoned by those who fit, as the plan says: the answers are about health.
  byPhone: false,
  version: 1,
  placeholders: followUp.placeholders,
  texts: {
    en: {
      subject: 'Once more: how is your new position?',
      body: `Hello {{givenName}},

we have not heard yet how it goes since your fit on {{sessionOn}}. Also when all is well, your answer helps; it takes three minutes:

{{link}}

If something worries you, do not wait for us: see a doctor, and in an emergency call your local emergency number.

{{studioName}}`,
    },
    de: {
      subject: 'Noch einmal: Wie geht es mit der neuen Position?',
      body: `Guten Tag {{givenName}} {{familyName}},

wir haben noch nicht gehört, wie es seit Ihrem Termin am {{sessionOn}} geht. Auch wenn alles gut ist, hilft Ihre Antwort; es dauert drei Minuten:

{{link}}

Wenn Ihnen etwas Sorgen macht, warten Sie nicht auf uns: Gehen Sie zum Arzt, und rufen Sie im Notfall den örtlichen Notruf.

{{studioName}}`,
    },
  },
};
