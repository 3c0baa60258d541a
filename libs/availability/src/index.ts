export {
  findOffer,
  listBenches,
  suitableFitters,
  suitableRooms,
  type Offer,
} from './availability.queries.js';
export { dayOf, findSlots, today, type FreeSlot, type Wish } from './find-slots.js';
export { daysAround, hoursAround, openAt } from './free-time.js';
export { bookableFrom, visitTime } from './visit-time.js';
export { StudioHours } from './studio-hours.js';
