import { Module, type OnModuleInit } from '@nestjs/common';
import { ChangesController } from './changes.controller.js';
import { FitSessionsController } from './fit-sessions.controller.js';
import { FitSessionsService } from './fit-sessions.service.js';
import { FlowController } from './flow.controller.js';
import { FlowService } from './flow.service.js';
import { MeasurementsController } from './measurements.controller.js';
import { OperationsController } from './operations.controller.js';
import { OperationsService } from './operations.service.js';
import { PositionsController } from './positions.controller.js';
import { PositionsService } from './positions.service.js';
import { SessionWrites } from './session-writes.js';
import { SignOffController } from './sign-off.controller.js';
import { SignOffService } from './sign-off.service.js';
import { ownWrites } from './writes/own-writes.js';

@Module({
  controllers: [
    FitSessionsController,
    PositionsController,
    MeasurementsController,
    FlowController,
    ChangesController,
    OperationsController,
    SignOffController,
  ],
  providers: [
    FitSessionsService,
    PositionsService,
    FlowService,
    OperationsService,
    SignOffService,
    SessionWrites,
  ],
  exports: [SessionWrites],
})
export class FitSessionsModule implements OnModuleInit {
  constructor(private readonly writes: SessionWrites) {}

  onModuleInit(): void {
    this.writes.add(...ownWrites);
  }
}
