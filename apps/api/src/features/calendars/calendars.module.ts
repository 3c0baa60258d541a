import { Module } from '@nestjs/common';
import { CalendarFeedsController } from './calendar-feeds.controller.js';
import { CalendarFeedsService } from './calendar-feeds.service.js';
import { CalendarsController } from './calendars.controller.js';
import { CalendarsService } from './calendars.service.js';

@Module({
  controllers: [CalendarFeedsController, CalendarsController],
  providers: [CalendarFeedsService, CalendarsService],
})
export class CalendarsModule {}
