import { Module } from '@nestjs/common';
import { FitSheetLinksController } from './fit-sheet-links.controller.js';
import { FitSheetsController } from './fit-sheets.controller.js';
import { FitSheetsService } from './fit-sheets.service.js';

@Module({ controllers: [FitSheetsController, FitSheetLinksController], providers: [FitSheetsService] })
export class FitSheetsModule {}
