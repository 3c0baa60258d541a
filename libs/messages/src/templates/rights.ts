import type { MessageTemplate } from '../template.js';

export const personExportReady: MessageTemplate = {
  name: 'person_export_ready',
  purpose: 'The copy of everything that is kept of a person, as a link that works once',
  to: 'client',
  about: 'person_export',
  // Asked for by the person; a link cannot be read out by phone.
  unasked: false,
  byPhone: false,
  version: 1,
  placeholders: {
    link: {
      kind: 'link',
      meaning: 'Where to download it, once',
      sample: 'https://fitting.example/exports/0199',
      required: true,
    },
    expiresAt: {
      kind: 'instant',
      meaning: 'Until when',
      sample: '2026-03-09T09:00:00Z',
      required: true,
    },
  },
  texts: {
    en: {
      subject: 'What you asked us for is ready',
      body: `Hello {{givenName}},

you asked for a copy of what we keep about you. You can download it here once, until {{expiresAt}}:

{{link}}

Please do not pass the link on, and keep the file where only you can read it.

{{studioName}}`,
    },
    de: {
      subject: 'Was Sie angefordert haben, liegt bereit',
      body: `Guten Tag {{givenName}} {{familyName}},

Sie haben eine Kopie dessen angefordert, was wir über Sie aufbewahren. Hier können Sie sie einmal herunterladen, bis {{expiresAt}}:

{{link}}

Bitte geben Sie den Link nicht weiter, und bewahren Sie die Datei so auf, dass nur Sie sie lesen können.

{{studioName}}`,
    },
  },
};
