import { Module } from '@nestjs/common';
import { ShoeWorkDeskController } from './desk.controller.js';
import { ShoeWorkDeskService } from './desk.service.js';
import { ShoeWorkRulesController } from './procedure.controller.js';
import { ShoeWorkStepsService } from './shoe-work-steps.service.js';
import { ShoeWorkController } from './shoe-work.controller.js';
import { ShoeWorkService } from './shoe-work.service.js';

@Module({
  controllers: [ShoeWorkRulesController, ShoeWorkController, ShoeWorkDeskController],
  providers: [ShoeWorkService, ShoeWorkStepsService, ShoeWorkDeskService],
})
export class ShoeWorkModule {}
