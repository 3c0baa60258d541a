import { Module } from '@nestjs/common';
import { MailReportsController } from './mail-reports.controller.js';
import { MailReportsService } from './mail-reports.service.js';
import { MessageSettingsController } from './message-settings.controller.js';
import { MessageSettingsService } from './message-settings.service.js';
import { MessageTemplatesController } from './message-templates.controller.js';
import { MessageTemplatesService } from './message-templates.service.js';
import { MessagesController } from './messages.controller.js';
import { MessagesService } from './messages.service.js';
import { UnsubscribeController } from './unsubscribe.controller.js';
import { UnsubscribeService } from './unsubscribe.service.js';

@Module({
  controllers: [
    MessagesController,
    MessageTemplatesController,
    MessageSettingsController,
    MailReportsController,
    UnsubscribeController,
  ],
  providers: [
    MessagesService,
    MessageTemplatesService,
    MessageSettingsService,
    MailReportsService,
    UnsubscribeService,
  ],
})
export class MessagesModule {}
