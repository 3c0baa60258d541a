import { Module } from '@nestjs/common';
import { CleatPlansService } from './cleat-plans.service.js';
import { FitSessionsController } from './fit-sessions.controller.js';
import { FitSessionsService } from './fit-sessions.service.js';

@Module({ controllers: [FitSessionsController], providers: [FitSessionsService, CleatPlansService] })
export class FitSessionsModule {}
