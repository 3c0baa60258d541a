import { Module } from '@nestjs/common';
import { CalculationsController } from './calculations.controller.js';

@Module({ controllers: [CalculationsController] })
export class CalculationsModule {}
