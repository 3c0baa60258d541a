import { Module } from '@nestjs/common';
import { PremisesController } from './premises.controller.js';
import { PremisesService } from './premises.service.js';

@Module({ controllers: [PremisesController], providers: [PremisesService] })
export class PremisesModule {}
