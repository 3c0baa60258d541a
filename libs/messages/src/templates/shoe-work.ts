import type { MessageTemplate } from '../template.js';

export const shoeWorkCured: MessageTemplate = {
  name: 'shoe_work_cured',
  purpose: 'Shoes that were worked on have cured and can be collected, with a hand-over',
  to: 'client',
  about: 'shoe_work',
  unasked: true,
  byPhone: true,
  version: 1,
  placeholders: { shoes: { kind: 'text', meaning: 'Which pair', sample: 'Summer shoes' } },
  texts: {
    en: {
      subject: 'Your shoes have cured',
      body: `Hello {{givenName}},

what we did to your shoes ({{shoes}}) has cured. Please make an appointment to collect them, and bring your bike with its pedals: we tighten the bolts and see with you that both feet come out of the pedals before you ride.

{{studioName}}`,
    },
    de: {
      subject: 'Ihre Schuhe sind ausgehärtet',
      body: `Guten Tag {{givenName}} {{familyName}},

die Arbeit an Ihren Schuhen ({{shoes}}) ist ausgehärtet. Bitte vereinbaren Sie einen Termin zum Abholen und bringen Sie Ihr Rad mit den Pedalen mit: Wir ziehen die Schrauben an und prüfen mit Ihnen, dass sich beide Füße aus den Pedalen lösen, bevor Sie fahren.

{{studioName}}`,
    },
  },
};
