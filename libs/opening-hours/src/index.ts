export {
  calendarDays,
  clockInstant,
  dayAt,
  localTime,
  localTimeOn,
  type CalendarDay,
} from './calendar-days.js';
export { covers, difference, intersection, union, type Interval, type IntervalSet } from './interval-set.js';
export {
  openDuring,
  type ClockSpan,
  type Hours,
  type HoursException,
  type WeeklyHours,
} from './opening-hours.js';
export { mayBegin, slots, startTimes, type Resource, type Slot, type VisitTime } from './slots.js';
