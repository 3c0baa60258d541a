export type { Bar, Build, FrameGeometry, RailedSaddle, Seatpost, Stem } from './bike-parts.js';
export { barClampCentre, contactPoints, type ContactPoints } from './contact-points.js';
export { partsToChange, type PartsOfBike, type PartToChange } from './parts-to-change.js';
export { secondBike, type SecondBike, type SecondBikeInput } from './second-bike.js';
export { secondPosition, type SecondPositionInput } from './second-position.js';
export {
  transferPosition,
  type Leftover,
  type PartRanges,
  type Transfer,
  type TransferBuild,
  type TransferInput,
} from './transfer-position.js';
