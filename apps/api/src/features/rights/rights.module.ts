import { Module } from '@nestjs/common';
import { ExportLinksController } from './export-links.controller.js';
import { PersonExportsController } from './person-exports.controller.js';
import { PersonExportsService } from './person-exports.service.js';
import { ProcessingRecordController } from './processing-record.controller.js';
import { RetentionController } from './retention.controller.js';
import { RetentionService } from './retention.service.js';
import { RightsRequestsController } from './rights-requests.controller.js';
import { RightsRequestsService } from './rights-requests.service.js';

@Module({
  controllers: [
    RightsRequestsController,
    PersonExportsController,
    ExportLinksController,
    RetentionController,
    ProcessingRecordController,
  ],
  providers: [RightsRequestsService, PersonExportsService, RetentionService],
})
export class RightsModule {}
