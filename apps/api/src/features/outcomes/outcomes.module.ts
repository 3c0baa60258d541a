import { Module } from '@nestjs/common';
import { ModelCheckController } from './model-check.controller.js';
import { ModelCheckService } from './model-check.service.js';
import { OutcomesController } from './outcomes.controller.js';
import { OutcomesService } from './outcomes.service.js';
import { ReviewsController } from './reviews.controller.js';
import { ReviewsService } from './reviews.service.js';
import { WorkloadController } from './workload.controller.js';
import { WorkloadService } from './workload.service.js';

@Module({
  controllers: [ReviewsController, WorkloadController, ModelCheckController, OutcomesController],
  providers: [ReviewsService, WorkloadService, ModelCheckService, OutcomesService],
})
export class OutcomesModule {}
