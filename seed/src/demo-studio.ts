import type { FirstStudio } from './open-studio.js';

/** The invented studio of the demo. Its passwords are public: it is never opened outside a demo. */
export const demoStudio: FirstStudio = {
  studioId: '0199d000-0000-7000-8000-000000000001',
  handle: 'harbour-lane',
  name: 'Harbour Lane Fitting',
  timeZone: 'Europe/Copenhagen',
  owner: {
    email: 'ines@harbour-lane.example',
    displayName: 'Ines Okafor',
    password: 'salt wind over the harbour',
  },
};

export const demoStaff = [
  {
    email: 'tomas@harbour-lane.example',
    displayName: 'Tomas Lindqvist',
    password: 'three gulls on the slipway',
    roles: ['fitter'],
  },
  {
    email: 'pilar@harbour-lane.example',
    displayName: 'Pilar Andrade',
    password: 'green lamp at the quayside',
    roles: ['front_desk'],
  },
] as const;
