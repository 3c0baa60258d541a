export {
  findOffer,
  listBenches,
  suitableFitters,
  suitableRooms,
  type Offer,
} from './availability.queries.js';
export { daysAround, hoursAround, openAt } from './free-time.js';
export { bookableFrom, visitTime } from './visit-time.js';
