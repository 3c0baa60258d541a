import { Module } from '@nestjs/common';
import { ClientLinksController } from './client-links.controller.js';
import { ClientLinksService } from './client-links.service.js';
import { ClientMergesController } from './client-merges.controller.js';
import { ClientMergesService } from './client-merges.service.js';
import { ClientNotesController } from './client-notes.controller.js';
import { ClientNotesService } from './client-notes.service.js';
import { ClientsController } from './clients.controller.js';
import { ClientsService } from './clients.service.js';

@Module({
  controllers: [ClientsController, ClientMergesController, ClientNotesController, ClientLinksController],
  providers: [ClientsService, ClientMergesService, ClientNotesService, ClientLinksService],
})
export class ClientsModule {}
