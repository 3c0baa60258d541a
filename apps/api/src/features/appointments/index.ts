export { AppointmentsModule } from './appointments.module.js';
export { AppointmentsService } from './appointments.service.js';
export { makeRoomOnBench } from './reservations.js';
