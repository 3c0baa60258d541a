import { Module } from '@nestjs/common';
import { DaySheetController } from './day-sheet.controller.js';
import { DaySheetService } from './day-sheet.service.js';

@Module({ controllers: [DaySheetController], providers: [DaySheetService] })
export class DaySheetModule {}
