import { Module } from '@nestjs/common';
import { ClinicianScoresController } from './clinician-scores.controller.js';
import { ClinicianScoresService } from './clinician-scores.service.js';

@Module({ controllers: [ClinicianScoresController], providers: [ClinicianScoresService] })
export class ClinicianScoresModule {}
