import { Module } from '@nestjs/common';
import { TestClockController } from './test-clock.controller.js';

@Module({ controllers: [TestClockController] })
export class TestClockModule {}
