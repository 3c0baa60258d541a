import { Module } from '@nestjs/common';
import { AccountsModule } from './features/accounts/accounts.module.js';
import { AuditModule } from './features/audit/audit.module.js';
import { AppointmentsModule } from './features/appointments/appointments.module.js';
import { CalendarsModule } from './features/calendars/calendars.module.js';
import { CalculationsModule } from './features/calculations/calculations.module.js';
import { AvailabilityModule } from './features/availability/availability.module.js';
import { ClinicianScoresModule } from './features/clinician-scores/clinician-scores.module.js';
import { CatalogueModule } from './features/catalogue/catalogue.module.js';
import { ClientImportsModule } from './features/client-imports/client-imports.module.js';
import { ClientsModule } from './features/clients/clients.module.js';
import { DaySheetModule } from './features/day-sheet/day-sheet.module.js';
import { EquipmentModule } from './features/equipment/equipment.module.js';
import { FilesModule } from './features/files/files.module.js';
import { FitSessionsModule } from './features/fit-sessions/fit-sessions.module.js';
import { FitSheetsModule } from './features/fit-sheets/fit-sheets.module.js';
import { FollowUpsModule } from './features/follow-ups/follow-ups.module.js';
import { HealthModule } from './features/health/health.module.js';
import { IntakePagesModule } from './features/intake-pages/intake-pages.module.js';
import { MessagesModule } from './features/messages/messages.module.js';
import { MotionRecordingsModule } from './features/motion-recordings/motion-recordings.module.js';
import { SimilarPositionsModule } from './features/similar-positions/similar-positions.module.js';
import { OpeningHoursModule } from './features/opening-hours/opening-hours.module.js';
import { OutcomesModule } from './features/outcomes/outcomes.module.js';
import { QueuesModule } from './features/queues/queues.module.js';
import { PlansModule } from './features/plans/plans.module.js';
import { ReferralsModule } from './features/referrals/referrals.module.js';
import { PremisesModule } from './features/premises/premises.module.js';
import { ScreeningsModule } from './features/screenings/screenings.module.js';
import { RecordSignaturesModule } from './features/record-signatures/record-signatures.module.js';
import { RecordOpeningsModule } from './features/record-openings/record-openings.module.js';
import { RightsModule } from './features/rights/rights.module.js';
import { SignInsModule } from './features/sign-ins/sign-ins.module.js';
import { ShoeWorkModule } from './features/shoe-work/shoe-work.module.js';
import { StaffModule } from './features/staff/staff.module.js';
import { TasksModule } from './features/tasks/tasks.module.js';
import { WebhooksModule } from './features/webhooks/webhooks.module.js';
import { WaitingListModule } from './features/waiting-list/waiting-list.module.js';
import { TestClockModule } from './features/test-clock/test-clock.module.js';

/** The table of contents. */
@Module({
  imports: [
    HealthModule,
    RecordSignaturesModule,
    AuditModule,
    RightsModule,
    RecordOpeningsModule,
    SignInsModule,
    StaffModule,
    ClientsModule,
    ClientImportsModule,
    CatalogueModule,
    AccountsModule,
    PremisesModule,
    OpeningHoursModule,
    AvailabilityModule,
    AppointmentsModule,
    MessagesModule,
    CalendarsModule,
    DaySheetModule,
    TasksModule,
    WaitingListModule,
    ScreeningsModule,
    ClinicianScoresModule,
    IntakePagesModule,
    ReferralsModule,
    EquipmentModule,
    FitSessionsModule,
    MotionRecordingsModule,
    SimilarPositionsModule,
    FitSheetsModule,
    PlansModule,
    FilesModule,
    ShoeWorkModule,
    CalculationsModule,
    FollowUpsModule,
    OutcomesModule,
    QueuesModule,
    WebhooksModule,
    TestClockModule,
  ],
})
export class AppModule {}
