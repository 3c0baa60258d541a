import { Module } from '@nestjs/common';
import { IntakeLinksController } from './intake-links.controller.js';
import { IntakeLinksService } from './intake-links.service.js';
import { IntakePagesController } from './intake-pages.controller.js';
import { IntakePagesService } from './intake-pages.service.js';

@Module({
  controllers: [IntakeLinksController, IntakePagesController],
  providers: [IntakeLinksService, IntakePagesService],
})
export class IntakePagesModule {}
