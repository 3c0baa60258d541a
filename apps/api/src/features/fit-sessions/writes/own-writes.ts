import { addChange, putChangeResponse } from './add-change.js';
import { addMeasurement, addMeasurements } from './add-measurements.js';
import { putBaseline } from './put-baseline.js';
import { putPosition } from './put-position.js';
import { reportComplaint } from './report-complaint.js';
import type { AnyWrite } from './session-write.js';
import { putPlace, startTimer, stopTimer } from './timers.js';
import { correctMeasurement, withdrawMeasurement } from './withdraw-measurement.js';

/** What this slice can write; other slices add theirs. */
export const ownWrites: readonly AnyWrite[] = [
  putBaseline,
  addMeasurement,
  addMeasurements,
  correctMeasurement,
  withdrawMeasurement,
  putPosition,
  putPlace,
  startTimer,
  stopTimer,
  addChange,
  putChangeResponse,
  reportComplaint,
];
