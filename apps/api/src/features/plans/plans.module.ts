import { Module } from '@nestjs/common';
import { CleatPlansController } from './cleat-plans.controller.js';
import { PlansController } from './plans.controller.js';
import { PlansService } from './plans.service.js';

@Module({ controllers: [PlansController, CleatPlansController], providers: [PlansService] })
export class PlansModule {}
