import type { MessageTemplate, Placeholder } from '../template.js';

const visit = {
  service: { kind: 'text', meaning: 'What is booked', sample: 'First fit' },
  startsAt: {
    kind: 'instant',
    meaning: 'When the visit begins, by the clock of the place',
    sample: '2026-03-02T09:00:00Z',
    required: true,
  },
  fitter: { kind: 'text', meaning: 'Who fits', sample: 'Kim Fitter' },
  place: { kind: 'text', meaning: 'Site and room', sample: 'Quay, Fit bay' },
} as const satisfies Record<string, Placeholder>;

const appointment = { to: 'client', about: 'appointment', version: 1 } as const;

export const appointmentConfirmed: MessageTemplate = {
  ...appointment,
  name: 'appointment_confirmed',
  purpose: 'A visit was booked',
  unasked: false,
  byPhone: false,
  placeholders: visit,
  texts: {
    en: {
      subject: 'Your appointment on {{startsAt}}',
      body: `Hello {{givenName}},

your appointment is booked:

{{service}}
{{startsAt}}
with {{fitter}}, {{place}}

If you cannot come, please tell us as early as you can: somebody else may be waiting for the time.

{{studioName}}`,
    },
    de: {
      subject: 'Ihr Termin am {{startsAt}}',
      body: `Guten Tag {{givenName}} {{familyName}},

Ihr Termin ist eingetragen:

{{service}}
{{startsAt}}
bei {{fitter}}, {{place}}

Wenn Sie nicht kommen können, sagen Sie uns bitte so früh wie möglich Bescheid: Vielleicht wartet jemand auf diese Zeit.

{{studioName}}`,
    },
  },
};

export const appointmentMoved: MessageTemplate = {
  ...appointment,
  name: 'appointment_moved',
  purpose: 'A booked visit got another time, fitter or room',
  unasked: false,
  byPhone: true,
  placeholders: {
    ...visit,
    previousStartsAt: {
      kind: 'instant',
      meaning: 'When it would have begun',
      sample: '2026-03-01T13:30:00Z',
    },
  },
  texts: {
    en: {
      subject: 'Your appointment is now on {{startsAt}}',
      body: `Hello {{givenName}},

your appointment of {{previousStartsAt}} was moved. It is now:

{{service}}
{{startsAt}}
with {{fitter}}, {{place}}

If this does not suit you, please tell us.

{{studioName}}`,
    },
    de: {
      subject: 'Ihr Termin ist jetzt am {{startsAt}}',
      body: `Guten Tag {{givenName}} {{familyName}},

Ihr Termin am {{previousStartsAt}} wurde verlegt. Er ist jetzt:

{{service}}
{{startsAt}}
bei {{fitter}}, {{place}}

Wenn Ihnen das nicht passt, sagen Sie uns bitte Bescheid.

{{studioName}}`,
    },
  },
};

export const appointmentCancelled: MessageTemplate = {
  ...appointment,
  name: 'appointment_cancelled',
  purpose: 'A booked visit was cancelled',
  unasked: false,
  byPhone: true,
  placeholders: visit,
  texts: {
    en: {
      subject: 'Your appointment on {{startsAt}} is cancelled',
      body: `Hello {{givenName}},

your appointment is cancelled:

{{service}}
{{startsAt}}

If you did not expect this, or would like another time, please call us.

{{studioName}}`,
    },
    de: {
      subject: 'Ihr Termin am {{startsAt}} ist abgesagt',
      body: `Guten Tag {{givenName}} {{familyName}},

Ihr Termin ist abgesagt:

{{service}}
{{startsAt}}

Wenn Sie das nicht erwartet haben oder eine andere Zeit möchten, rufen Sie uns bitte an.

{{studioName}}`,
    },
  },
};

export const reminderTwoDays: MessageTemplate = {
  ...appointment,
  name: 'reminder_two_days',
  purpose: 'Two days before a visit',
  unasked: true,
  byPhone: true,
  placeholders: visit,
  texts: {
    en: {
      subject: 'In two days: {{service}}, {{startsAt}}',
      body: `Hello {{givenName}},

we look forward to seeing you:

{{service}}
{{startsAt}}
with {{fitter}}, {{place}}

Please bring the bike and the shoes it is about. If you cannot come, please call us today.

{{studioName}}`,
    },
    de: {
      subject: 'In zwei Tagen: {{service}}, {{startsAt}}',
      body: `Guten Tag {{givenName}} {{familyName}},

wir freuen uns auf Sie:

{{service}}
{{startsAt}}
bei {{fitter}}, {{place}}

Bitte bringen Sie das Rad und die Schuhe mit, um die es geht. Wenn Sie nicht kommen können, rufen Sie uns bitte heute an.

{{studioName}}`,
    },
  },
};

export const reminderTwoHours: MessageTemplate = {
  ...appointment,
  name: 'reminder_two_hours',
  purpose: 'Two hours before a visit; the evening before, where that would fall into the quiet hours',
  unasked: true,
  byPhone: false,
  placeholders: visit,
  texts: {
    en: {
      subject: 'Soon: {{service}}, {{startsAt}}',
      body: `Hello {{givenName}},

see you soon:

{{service}}
{{startsAt}}
with {{fitter}}, {{place}}

{{studioName}}`,
    },
    de: {
      subject: 'Bald: {{service}}, {{startsAt}}',
      body: `Guten Tag {{givenName}} {{familyName}},

bis bald:

{{service}}
{{startsAt}}
bei {{fitter}}, {{place}}

{{studioName}}`,
    },
  },
};

export const curingDone: MessageTemplate = {
  ...appointment,
  name: 'curing_done',
  purpose: 'What was glued in a visit has cured and can be collected',
  unasked: true,
  byPhone: true,
  placeholders: { service: visit.service },
  texts: {
    en: {
      subject: 'Your shoes are ready',
      body: `Hello {{givenName}},

what we did to your shoes ({{service}}) has cured. You can collect them when we are open, or we go on with them at your next appointment.

Before the first ride: check every bolt, and ride easily at first.

{{studioName}}`,
    },
    de: {
      subject: 'Ihre Schuhe sind fertig',
      body: `Guten Tag {{givenName}} {{familyName}},

die Arbeit an Ihren Schuhen ({{service}}) ist ausgehärtet. Sie können sie zu den Öffnungszeiten abholen, oder wir machen bei Ihrem nächsten Termin damit weiter.

Vor der ersten Fahrt: Prüfen Sie alle Schrauben, und fahren Sie zuerst locker.

{{studioName}}`,
    },
  },
};
