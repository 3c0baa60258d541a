/** What work on a sole asks of hands, eyes and lungs. Safety sheets and the workplace's own rules come first. */
export interface Hazard {
  readonly code: string;
  readonly text: string;
  readonly source: string;
}

export const commonPractice = 'common practice, no source';

export const eyes: Hazard = {
  code: 'eyes',
  text: 'Safety glasses: chips fly, and a drill can catch and throw the shoe. Clamp it.',
  source: commonPractice,
};
export const dust: Hazard = {
  code: 'dust',
  text: 'Extract the dust at the tool and wear a mask for fine dust; never blow it away. Dust of carbon fibre irritates skin, eyes and airways.',
  source: commonPractice,
};
export const cutGloves: Hazard = {
  code: 'gloves-against-fibres',
  text: 'Gloves against cut fibres and burrs, but none that a turning drill can catch.',
  source: commonPractice,
};
export const resinGloves: Hazard = {
  code: 'gloves-against-adhesive',
  text: 'Nitrile gloves, changed when adhesive touched them: what is not cured can make the skin allergic to it. Air the room.',
  source: `${commonPractice}; sensitising by uncured epoxy: from memory`,
};
export const partCured: Hazard = {
  code: 'no-sanding-part-cured',
  text: 'Do not sand what has cured only in part.',
  source: commonPractice,
};
export const release: Hazard = {
  code: 'release',
  text: 'A cleat that is loose, or too tight, may not come out of the pedal, and the rider falls. No ride before both feet came out at a standstill.',
  source: commonPractice,
};
