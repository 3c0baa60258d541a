import { Module } from '@nestjs/common';
import { FilesController } from './files.controller.js';
import { FilesService } from './files.service.js';
import { StoredObjectsController } from './stored-objects.controller.js';

@Module({ controllers: [FilesController, StoredObjectsController], providers: [FilesService] })
export class FilesModule {}
