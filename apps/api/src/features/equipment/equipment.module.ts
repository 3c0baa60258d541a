import { Module } from '@nestjs/common';
import { BikesController } from './bikes.controller.js';
import { BikesService } from './bikes.service.js';
import { ShoesController } from './shoes.controller.js';
import { ShoesService } from './shoes.service.js';

@Module({ controllers: [BikesController, ShoesController], providers: [BikesService, ShoesService] })
export class EquipmentModule {}
