import { Module } from '@nestjs/common';
import { ClientImportsController } from './client-imports.controller.js';
import { ClientImportsService } from './client-imports.service.js';

@Module({ controllers: [ClientImportsController], providers: [ClientImportsService] })
export class ClientImportsModule {}
