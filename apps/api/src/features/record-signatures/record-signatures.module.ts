import { Module } from '@nestjs/common';
import { RecordSignaturesController } from './record-signatures.controller.js';
import { RecordSignaturesService } from './record-signatures.service.js';

@Module({ controllers: [RecordSignaturesController], providers: [RecordSignaturesService] })
export class RecordSignaturesModule {}
