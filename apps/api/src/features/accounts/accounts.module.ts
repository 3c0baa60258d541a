import { Module } from '@nestjs/common';
import { BooksController } from './books.controller.js';
import { BooksService } from './books.service.js';
import { DocumentsController } from './documents.controller.js';
import { DocumentsService } from './documents.service.js';
import { PaymentsController } from './payments.controller.js';
import { PaymentsService } from './payments.service.js';
import { PriceListController } from './price-list.controller.js';
import { PriceListService } from './price-list.service.js';

@Module({
  controllers: [PriceListController, DocumentsController, PaymentsController, BooksController],
  providers: [PriceListService, DocumentsService, PaymentsService, BooksService],
})
export class AccountsModule {}
