import { Module } from '@nestjs/common';
import { FitSheetsController } from './fit-sheets.controller.js';
import { FitSheetsService } from './fit-sheets.service.js';

@Module({ controllers: [FitSheetsController], providers: [FitSheetsService] })
export class FitSheetsModule {}
