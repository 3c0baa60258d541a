import type { MessageTemplate } from '../template.js';

export const studioAlert: MessageTemplate = {
  name: 'studio_alert',
  // Who and why is read after signing in: mail travels in the open.
  purpose: 'Answers of a client cannot wait',
  to: 'staff',
  about: null,
  unasked: false,
  byPhone: false,
  version: 1,
  placeholders: {
    link: {
      kind: 'link',
      meaning: 'The case, to be opened after signing in',
      sample: 'https://fitting.example/v1/referrals/0199',
      required: true,
    },
  },
  texts: {
    en: {
      subject: 'Urgent: a client needs you now',
      body: `A client of {{studioName}} gave answers that cannot wait.

Sign in now, open this case, and call the client today:

{{link}}

The client was told what to do when they gave the answers at the screen; do not rely on it.`,
    },
    de: {
      subject: 'Dringend: Ein Kunde braucht Sie jetzt',
      body: `Ein Kunde von {{studioName}} hat Antworten gegeben, die nicht warten können.

Melden Sie sich jetzt an, öffnen Sie diesen Fall, und rufen Sie den Kunden heute an:

{{link}}

Bei den Antworten stand am Bildschirm, was zu tun ist; verlassen Sie sich nicht darauf.`,
    },
  },
};

export const recordOpened: MessageTemplate = {
  name: 'record_opened',
  // Whose record, and the reason given, are read after signing in.
  purpose: 'Somebody opened a record that is restricted',
  to: 'staff',
  about: null,
  unasked: false,
  byPhone: false,
  version: 1,
  placeholders: {
    openedBy: {
      kind: 'text',
      meaning: 'Who opened it',
      sample: 'Tomas Lindqvist',
      required: true,
    },
    link: {
      kind: 'link',
      meaning: 'The openings with their reasons, to be read after signing in',
      sample: 'https://fitting.example/v1/record-openings',
      required: true,
    },
  },
  texts: {
    en: {
      subject: 'A restricted record was opened',
      body: `{{openedBy}} opened a record of {{studioName}} that its person had restricted.

Sign in and read whose it was and which reason was given:

{{link}}

If the reason does not hold, speak with {{openedBy}} and tell the person.`,
    },
    de: {
      subject: 'Ein eingeschränkter Datensatz wurde geöffnet',
      body: `{{openedBy}} hat bei {{studioName}} einen Datensatz geöffnet, den die Person hatte einschränken lassen.

Melden Sie sich an und lesen Sie, um wen es geht und welcher Grund genannt wurde:

{{link}}

Trägt der Grund nicht, sprechen Sie mit {{openedBy}}, und sagen Sie es der Person.`,
    },
  },
};

export const notice: MessageTemplate = {
  name: 'notice',
  purpose: 'Anything about an account: an invitation, a new password, something to know',
  to: 'staff',
  about: null,
  unasked: false,
  byPhone: false,
  version: 1,
  placeholders: {
    heading: { kind: 'text', meaning: 'What it is about', sample: 'Choose a new password', required: true },
    message: {
      kind: 'text',
      meaning: 'What is to be known or done',
      sample: 'Somebody, we hope you, asked for a new password. This address works for one hour:',
      required: true,
    },
    link: { kind: 'link', meaning: 'Where to do it', sample: 'https://fitting.example/passwords/0199' },
  },
  texts: {
    en: { subject: '{{heading}}', body: '{{message}}\n\n{{link}}\n\n{{studioName}}' },
    de: { subject: '{{heading}}', body: '{{message}}\n\n{{link}}\n\n{{studioName}}' },
  },
};
