import { Module } from '@nestjs/common';
import { OutcomesController } from './outcomes.controller.js';
import { OutcomesService } from './outcomes.service.js';
import { ReviewsController } from './reviews.controller.js';
import { ReviewsService } from './reviews.service.js';

@Module({
  controllers: [ReviewsController, OutcomesController],
  providers: [ReviewsService, OutcomesService],
})
export class OutcomesModule {}
