import { Module } from '@nestjs/common';
import { ChosenActivitiesController } from './chosen-activities.controller.js';
import { ChosenActivitiesService } from './chosen-activities.service.js';
import { FollowUpLinksController } from './follow-up-links.controller.js';
import { FollowUpLinksService } from './follow-up-links.service.js';
import { FollowUpPagesController } from './follow-up-pages.controller.js';
import { FollowUpPagesService } from './follow-up-pages.service.js';
import { FollowUpsController } from './follow-ups.controller.js';
import { FollowUpsService } from './follow-ups.service.js';
import { PlansController } from './plans.controller.js';
import { RidePagesController } from './ride-pages.controller.js';
import { RidesService } from './rides.service.js';
import { PlansService } from './plans.service.js';

@Module({
  controllers: [
    PlansController,
    ChosenActivitiesController,
    FollowUpsController,
    FollowUpLinksController,
    FollowUpPagesController,
    RidePagesController,
  ],
  providers: [
    PlansService,
    ChosenActivitiesService,
    FollowUpsService,
    FollowUpLinksService,
    FollowUpPagesService,
    RidesService,
  ],
})
export class FollowUpsModule {}
