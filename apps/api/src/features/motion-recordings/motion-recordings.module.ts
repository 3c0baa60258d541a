import { Module } from '@nestjs/common';
import { MotionRecordingsController } from './motion-recordings.controller.js';
import { MotionRecordingsService } from './motion-recordings.service.js';

@Module({ controllers: [MotionRecordingsController], providers: [MotionRecordingsService] })
export class MotionRecordingsModule {}
