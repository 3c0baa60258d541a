import { Module } from '@nestjs/common';
import { AppointmentSeriesController } from './appointment-series.controller.js';
import { AppointmentsController } from './appointments.controller.js';
import { AppointmentsService } from './appointments.service.js';

@Module({
  controllers: [AppointmentsController, AppointmentSeriesController],
  providers: [AppointmentsService],
  exports: [AppointmentsService],
})
export class AppointmentsModule {}
