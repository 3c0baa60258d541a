import { Module } from '@nestjs/common';
import { ModelCheckController } from './model-check.controller.js';
import { ModelCheckService } from './model-check.service.js';
import { OutcomesController } from './outcomes.controller.js';
import { OutcomesService } from './outcomes.service.js';
import { ReviewsController } from './reviews.controller.js';
import { ReviewsService } from './reviews.service.js';

@Module({
  controllers: [ReviewsController, ModelCheckController, OutcomesController],
  providers: [ReviewsService, ModelCheckService, OutcomesService],
})
export class OutcomesModule {}
