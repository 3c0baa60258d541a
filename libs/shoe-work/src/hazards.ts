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
  text: 'Extract the dust at the tool, wear a mask for fine dust, never blow it away. Fibres of carbon irritate the skin; their dust may conduct and short electric devices.',
  source:
    'compositeenvisions.com, safety 101: trim, drill, sanding (irritation); conducting: from memory; the rest common practice',
};
export const cutGloves: Hazard = {
  code: 'gloves-against-fibres',
  text: 'Gloves against cut fibres and burrs, but none that a turning drill can catch.',
  source: commonPractice,
};
export const resinGloves: Hazard = {
  code: 'gloves-against-adhesive',
  text: 'Resin and hardener can each make the skin allergic, for long. Thick nitrile or laminate gloves, thin nitrile changed often, no latex; by the adhesive’s safety sheet. Air the room.',
  source:
    'Kanerva’s Occupational Dermatology (sensitising; gloves); cutaneousallergy.org, leaflet on epoxy resin (avoid it in future)',
};
export const partCured: Hazard = {
  code: 'no-sanding-part-cured',
  text: 'Do not sand what has cured only in part: what is not cured is what sensitises.',
  source: 'epoxy-europe.eu, Epoxies in the workplace (only what is not cured); sanding: common practice',
};
export const release: Hazard = {
  code: 'release',
  text: 'A cleat that is loose, or too tight, may not come out of the pedal, and the rider falls. No ride before both feet came out at a standstill.',
  source: 'a road-bike manual under ISO 4210-2 (loose cleats); the rest common practice, no source',
};
