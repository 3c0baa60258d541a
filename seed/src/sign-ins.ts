import { demoStaff, demoStudio } from './demo-studio.js';

/** Who can sign in to the demo studio; printed when the demo serves. */
export const signIns = [
  { role: 'owner', ...demoStudio.owner },
  ...demoStaff.map((person) => ({ role: person.roles[0], ...person })),
].map(({ role, email, password }) => ({ role, studio: demoStudio.handle, email, password }));
