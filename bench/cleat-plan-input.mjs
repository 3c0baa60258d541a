/** @type {import('@studio/fit-math').CleatPlanInput} */
export const cleatPlanInput = {
  shoe: {
    outerLengthMm: 290,
    holePattern: 'three_bolt',
    slotFrontFromHeelMm: 212,
    slotRearFromHeelMm: 197,
    archChannel: false,
  },
  cleatFromHeelMm: 200,
  mth1FromHeelMm: 205,
  rider: {
    leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 },
    footPitch: { kind: 'constant', pitchDeg: 10 },
    minimumKneeFlexionDeg: 35,
    seatTubeAngleDeg: 73,
  },
};
