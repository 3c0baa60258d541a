import { Module } from '@nestjs/common';
import { FollowUpLinksController } from './follow-up-links.controller.js';
import { FollowUpLinksService } from './follow-up-links.service.js';
import { FollowUpsController } from './follow-ups.controller.js';
import { FollowUpsService } from './follow-ups.service.js';
import { PlansController } from './plans.controller.js';
import { PlansService } from './plans.service.js';

@Module({
  controllers: [PlansController, FollowUpsController, FollowUpLinksController],
  providers: [PlansService, FollowUpsService, FollowUpLinksService],
})
export class FollowUpsModule {}
