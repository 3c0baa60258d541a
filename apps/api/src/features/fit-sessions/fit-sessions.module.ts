import { Module } from '@nestjs/common';
import { CleatPlansService } from './cleat-plans.service.js';
import { FitSessionsController } from './fit-sessions.controller.js';
import { FitSessionsService } from './fit-sessions.service.js';
import { PositionsController } from './positions.controller.js';
import { PositionsService } from './positions.service.js';

@Module({
  controllers: [FitSessionsController, PositionsController],
  providers: [FitSessionsService, PositionsService, CleatPlansService],
})
export class FitSessionsModule {}
