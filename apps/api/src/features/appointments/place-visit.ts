import {
  bookableFrom,
  daysAround,
  findOffer,
  hoursAround,
  listBenches,
  openAt,
  suitableFitters,
  suitableRooms,
  visitTime,
  type Offer,
} from '@studio/availability';
import { together, type SqlRunner } from '@studio/database';
import { covers, type Interval } from '@studio/opening-hours';
import { UnknownReference } from '../../http/problem.js';
import {
  AppointmentInThePast,
  NoBenchFree,
  NotAFitter,
  NotSuited,
  OutsideHours,
  ServiceRetired,
} from './appointments.errors.js';
import { findFreeBench, isFitter, type Slot } from './appointments.queries.js';

export interface VisitWish {
  readonly serviceId: string;
  readonly fitterId: string;
  readonly roomId: string;
  readonly benchId?: string | null | undefined;
  readonly startsAt: string;
  readonly evenOutsideHours?: boolean | undefined;
}

/**
 * What the visit would take, once all but the bookings of others allows it. Those are the database's to judge, when
 * the slot is written.
 *
 * @param exceptId the appointment that is being moved
 * @throws ApiError naming the first thing in the way
 */
export async function placeVisit(
  sql: SqlRunner,
  studioId: string,
  wish: VisitWish,
  exceptId: string | null,
): Promise<Slot> {
  const { serviceId, fitterId, roomId } = wish;
  const any = { studioId, roomId, siteId: null };
  const [offer, fits, [room]] = await together([
    findOffer(sql, { studioId, serviceId }),
    isFitter(sql, studioId, fitterId),
    suitableRooms(sql, { ...any, equipment: [] }),
  ]);
  if (!offer) throw new UnknownReference('serviceId');
  if (offer.retired && exceptId === null) throw new ServiceRetired();
  if (!fits) throw new NotAFitter();
  await checkSkills(sql, studioId, fitterId, offer);

  if (!room) throw new UnknownReference('roomId');
  const equipment = offer.requiredEquipment;
  if (equipment.length > 0 && (await suitableRooms(sql, { ...any, equipment })).length === 0) {
    throw new NotSuited('roomId', `lacks equipment the service needs: ${equipment.join(', ')}`);
  }

  const visit = visitTime(offer);
  const start = Date.parse(wish.startsAt);
  const during = { start, end: start + visit.durationMs };
  const occupied = { start: start - visit.bufferBeforeMs, end: during.end + visit.bufferAfterMs };
  if (start <= offer.nowMs) throw new AppointmentInThePast();
  if (wish.evenOutsideHours !== true) {
    checkBookable(start, offer);
    await checkHours(sql, { studioId, fitterId, roomId, ...room, occupied });
  }
  const curing = visit.curingMs > 0 ? { start: during.end, end: during.end + visit.curingMs } : null;
  const benchId = curing && (await chooseBench(sql, { studioId, wish, curing, exceptId, ...room }));
  return { studioId, fitterId, roomId, benchId, during, occupied, curing };
}

async function checkSkills(
  sql: SqlRunner,
  studioId: string,
  fitterId: string,
  { requiredSkills: skills }: Offer,
): Promise<void> {
  if (skills.length === 0) return;
  if ((await suitableFitters(sql, { studioId, skills, fitterId })).length === 0) {
    throw new NotSuited('fitterId', `lacks skills the service needs: ${skills.join(', ')}`);
  }
}

function checkBookable(start: number, offer: Offer): void {
  const bookable = bookableFrom(offer);
  if (start < bookable.start) {
    throw new OutsideHours(`must be at least ${offer.leadTimeMinutes} minutes from now`);
  }
  if (start >= bookable.end) {
    throw new OutsideHours(`must be within ${String(offer.horizonDays)} days from now`);
  }
}

async function checkHours(
  sql: SqlRunner,
  visit: {
    studioId: string;
    fitterId: string;
    roomId: string;
    siteId: string | null;
    timeZone: string;
    occupied: Interval;
  },
): Promise<void> {
  const { occupied, siteId } = visit;
  const hours = await hoursAround(sql, visit.studioId, occupied);
  const open = openAt(hours, { siteId, days: daysAround(visit.timeZone, occupied) });
  if (!covers(open.fitter(visit.fitterId), occupied)) {
    throw new OutsideHours('must lie, with its buffers, within the hours of fitter and studio');
  }
  if (!covers(open.room(visit.roomId), occupied)) {
    throw new OutsideHours('must lie, with its buffers, within the hours of the room');
  }
}

async function chooseBench(
  sql: SqlRunner,
  options: {
    studioId: string;
    wish: VisitWish;
    siteId: string | null;
    curing: Interval;
    exceptId: string | null;
  },
): Promise<string> {
  const { studioId, wish, siteId, curing, exceptId } = options;
  const benches = await listBenches(sql, studioId);
  if (wish.benchId != null) {
    const bench = benches.find(({ id }) => id === wish.benchId);
    if (!bench) throw new UnknownReference('benchId');
    if (bench.siteId !== siteId) throw new NotSuited('benchId', 'is not at the site of the room');
    return bench.id;
  }
  const benchIds = benches.filter((bench) => bench.siteId === siteId).map(({ id }) => id);
  const free = await findFreeBench(sql, { studioId, benchIds, curing, exceptId });
  if (free === null) throw new NoBenchFree();
  return free;
}
