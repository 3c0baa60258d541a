import { Module } from '@nestjs/common';
import { RulesController } from './rules.controller.js';
import { RulesService } from './rules.service.js';
import { ScreeningsController } from './screenings.controller.js';
import { ScreeningsService } from './screenings.service.js';

@Module({
  controllers: [ScreeningsController, RulesController],
  providers: [ScreeningsService, RulesService],
})
export class ScreeningsModule {}
