import type { VisitTime } from '@studio/opening-hours';
import type { Offer } from './availability.queries.js';

const minuteMs = 60_000;
const dayMs = 86_400_000;

export function visitTime(offer: Offer): VisitTime {
  return {
    durationMs: offer.durationMinutes * minuteMs,
    bufferBeforeMs: offer.bufferBeforeMinutes * minuteMs,
    bufferAfterMs: offer.bufferAfterMinutes * minuteMs,
    curingMs: offer.curingMinutes * minuteMs,
  };
}

/** From the lead time on, up to the horizon; half-open. A visit may never begin in the past, nor this instant. */
export function bookableFrom({ nowMs, leadTimeMinutes, horizonDays }: Offer): { start: number; end: number } {
  return {
    start: nowMs + Math.max(leadTimeMinutes * minuteMs, 1),
    end: horizonDays === null ? Infinity : nowMs + horizonDays * dayMs + 1,
  };
}
