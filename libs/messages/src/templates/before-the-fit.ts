import type { MessageTemplate, Placeholder } from '../template.js';

const intakeLink = {
  kind: 'link',
  meaning: 'The link to the questions, for this client alone',
  sample: 'https://fitting.example/intake/0199',
  required: true,
} as const satisfies Placeholder;

export const intakeLinkMail: MessageTemplate = {
  name: 'intake_link',
  purpose: 'The link to the questions before a fit',
  to: 'client',
  about: 'intake_link',
  unasked: false,
  byPhone: true,
  version: 1,
  placeholders: { link: intakeLink },
  texts: {
    en: {
      subject: 'Some questions before your bike fit',
      body: `Hello {{givenName}},

please answer these questions before your bike fit. You can stop and go on later by the same link:

{{link}}

The link is yours alone; please do not pass it on. If something worries you, do not wait for us: see a doctor, and in an emergency call your local emergency number.

{{studioName}}`,
    },
    de: {
      subject: 'Einige Fragen vor Ihrem Termin',
      body: `Guten Tag {{givenName}} {{familyName}},

bitte beantworten Sie diese Fragen vor Ihrem Termin. Sie können unterbrechen und mit demselben Link weitermachen:

{{link}}

Der Link ist nur für Sie; bitte geben Sie ihn nicht weiter. Wenn Ihnen etwas Sorgen macht, warten Sie nicht auf uns: Gehen Sie zum Arzt, und rufen Sie im Notfall den örtlichen Notruf.

{{studioName}}`,
    },
  },
};

export const intakeReminder: MessageTemplate = {
  name: 'intake_reminder',
  purpose: 'The questions before a fit are still unanswered two days before the visit',
  to: 'client',
  // The link is the one that is open when the time comes.
  about: 'appointment',
  unasked: true,
  byPhone: true,
  version: 1,
  placeholders: { link: intakeLink },
  texts: {
    en: {
      subject: 'Your answers are still missing',
      body: `Hello {{givenName}},

we still need your answers before your bike fit. What you have answered so far is kept:

{{link}}

Without them we may have to put the fit off. If something worries you, do not wait for us: see a doctor, and in an emergency call your local emergency number.

{{studioName}}`,
    },
    de: {
      subject: 'Ihre Antworten fehlen noch',
      body: `Guten Tag {{givenName}} {{familyName}},

vor Ihrem Termin brauchen wir noch Ihre Antworten. Was Sie schon beantwortet haben, ist gespeichert:

{{link}}

Ohne die Antworten müssen wir den Termin vielleicht verschieben. Wenn Ihnen etwas Sorgen macht, warten Sie nicht auf uns: Gehen Sie zum Arzt, und rufen Sie im Notfall den örtlichen Notruf.

{{studioName}}`,
    },
  },
};

export const waitingListOffer: MessageTemplate = {
  name: 'waiting_list_offer',
  purpose: 'A time came free for a client on the waiting list',
  to: 'client',
  about: null,
  unasked: true,
  byPhone: true,
  version: 1,
  placeholders: {
    service: { kind: 'text', meaning: 'What was wished for', sample: 'First fit' },
    startsAt: {
      kind: 'instant',
      meaning: 'When the time that came free begins',
      sample: '2026-03-02T09:00:00Z',
      required: true,
    },
    expiresAt: {
      kind: 'instant',
      meaning: 'Until when it is kept',
      sample: '2026-02-27T11:00:00Z',
      required: true,
    },
    link: {
      kind: 'link',
      meaning: 'Where to say yes or no',
      sample: 'https://fitting.example/offers/0199',
      required: true,
    },
  },
  texts: {
    en: {
      subject: 'A time came free: {{startsAt}}',
      body: `Hello {{givenName}},

you are on our waiting list, and a time came free:

{{service}}
{{startsAt}}

We keep it for you until {{expiresAt}}. Take it or leave it here:

{{link}}

{{studioName}}`,
    },
    de: {
      subject: 'Ein Termin ist frei geworden: {{startsAt}}',
      body: `Guten Tag {{givenName}} {{familyName}},

Sie stehen auf unserer Warteliste, und eine Zeit ist frei geworden:

{{service}}
{{startsAt}}

Wir halten sie für Sie frei bis {{expiresAt}}. Hier können Sie zusagen oder absagen:

{{link}}

{{studioName}}`,
    },
  },
};

export const referralDeadline: MessageTemplate = {
  name: 'referral_deadline',
  // What the client was asked to do is not said: mail travels in the open.
  purpose: 'The day by which the client wanted to come back to us with an answer is near',
  to: 'client',
  about: null,
  unasked: true,
  byPhone: true,
  version: 1,
  placeholders: {
    dueOn: { kind: 'day', meaning: 'The day', sample: '2026-03-09', required: true },
  },
  texts: {
    en: {
      subject: 'Please come back to us by {{dueOn}}',
      body: `Hello {{givenName}},

we agreed that you would come back to us by {{dueOn}}. Please call us and say how far you are.

If you feel worse, do not wait for that day: see a doctor now, and in an emergency call your local emergency number.

{{studioName}}`,
    },
    de: {
      subject: 'Bitte melden Sie sich bis {{dueOn}}',
      body: `Guten Tag {{givenName}} {{familyName}},

wir hatten ausgemacht, dass Sie sich bis {{dueOn}} bei uns melden. Bitte rufen Sie uns an und sagen Sie uns, wie weit Sie sind.

Wenn es Ihnen schlechter geht, warten Sie nicht bis dahin: Gehen Sie jetzt zum Arzt, und rufen Sie im Notfall den örtlichen Notruf.

{{studioName}}`,
    },
  },
};
