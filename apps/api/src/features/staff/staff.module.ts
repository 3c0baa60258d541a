import { Module } from '@nestjs/common';
import { ClinicianMarksController } from './clinician-marks.controller.js';
import { ClinicianMarksService } from './clinician-marks.service.js';
import { StaffController } from './staff.controller.js';
import { StaffService } from './staff.service.js';

@Module({
  controllers: [StaffController, ClinicianMarksController],
  providers: [StaffService, ClinicianMarksService],
})
export class StaffModule {}
