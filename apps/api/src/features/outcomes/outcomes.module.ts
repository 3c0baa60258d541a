import { Module } from '@nestjs/common';
import { OutcomesController } from './outcomes.controller.js';
import { OutcomesService } from './outcomes.service.js';

@Module({ controllers: [OutcomesController], providers: [OutcomesService] })
export class OutcomesModule {}
