import { Module } from '@nestjs/common';
import { AppointmentsModule } from '../appointments/index.js';
import { OfferPagesController } from './offer-pages.controller.js';
import { SlotOffersController } from './slot-offers.controller.js';
import { SlotOffersService } from './slot-offers.service.js';
import { WaitingListController } from './waiting-list.controller.js';
import { WaitingListService } from './waiting-list.service.js';

@Module({
  imports: [AppointmentsModule],
  controllers: [WaitingListController, SlotOffersController, OfferPagesController],
  providers: [WaitingListService, SlotOffersService],
})
export class WaitingListModule {}
