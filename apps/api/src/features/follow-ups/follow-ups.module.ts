import { Module } from '@nestjs/common';
import { FollowUpsController } from './follow-ups.controller.js';
import { FollowUpsService } from './follow-ups.service.js';

@Module({ controllers: [FollowUpsController], providers: [FollowUpsService] })
export class FollowUpsModule {}
