import { Module } from '@nestjs/common';
import { RecordOpeningsController } from './record-openings.controller.js';
import { RecordOpeningsService } from './record-openings.service.js';

@Module({ controllers: [RecordOpeningsController], providers: [RecordOpeningsService] })
export class RecordOpeningsModule {}
