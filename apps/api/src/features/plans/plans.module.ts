import { Module } from '@nestjs/common';
import { CleatPlansController } from './cleat-plans.controller.js';
import { PairedPositionsController } from './paired-positions.controller.js';
import { PairedPositionsService } from './paired-positions.service.js';
import { PlansController } from './plans.controller.js';
import { PlansService } from './plans.service.js';

@Module({
  controllers: [PlansController, CleatPlansController, PairedPositionsController],
  providers: [PlansService, PairedPositionsService],
})
export class PlansModule {}
