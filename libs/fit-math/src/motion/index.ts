export { analyseMotion, type CrankSample, type HeelPosture, type Motion } from './analyse-motion.js';
export type { FilmSettings } from './marker-angles.js';
export { readMotionCsv } from './read-motion-csv.js';
export type {
  AngleName,
  AngleRecording,
  MarkerName,
  MarkerRecording,
  MarkerTrack,
  Recording,
} from './recording.js';
