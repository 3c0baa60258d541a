import { Module } from '@nestjs/common';
import { OpeningHoursController } from './opening-hours.controller.js';
import { OpeningHoursService } from './opening-hours.service.js';

@Module({ controllers: [OpeningHoursController], providers: [OpeningHoursService] })
export class OpeningHoursModule {}
