import { Module } from '@nestjs/common';
import { SimilarPositionsController } from './similar-positions.controller.js';
import { SimilarPositionsService } from './similar-positions.service.js';

@Module({ controllers: [SimilarPositionsController], providers: [SimilarPositionsService] })
export class SimilarPositionsModule {}
