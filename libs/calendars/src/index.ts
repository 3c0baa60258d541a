export { calendar, type Calendar, type CalendarEvent, type CalendarPerson } from './calendar.js';
