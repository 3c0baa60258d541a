import { Module } from '@nestjs/common';
import { AppointmentsModule } from './features/appointments/appointments.module.js';
import { CatalogueModule } from './features/catalogue/catalogue.module.js';
import { ClientsModule } from './features/clients/clients.module.js';
import { EquipmentModule } from './features/equipment/equipment.module.js';
import { FitSessionsModule } from './features/fit-sessions/fit-sessions.module.js';
import { FollowUpsModule } from './features/follow-ups/follow-ups.module.js';
import { HealthModule } from './features/health/health.module.js';
import { IntakePagesModule } from './features/intake-pages/intake-pages.module.js';
import { OutcomesModule } from './features/outcomes/outcomes.module.js';
import { ReferralsModule } from './features/referrals/referrals.module.js';
import { ScreeningsModule } from './features/screenings/screenings.module.js';
import { SignInsModule } from './features/sign-ins/sign-ins.module.js';
import { StaffModule } from './features/staff/staff.module.js';
import { TestClockModule } from './features/test-clock/test-clock.module.js';

/** The table of contents. */
@Module({
  imports: [
    HealthModule,
    SignInsModule,
    StaffModule,
    ClientsModule,
    CatalogueModule,
    AppointmentsModule,
    ScreeningsModule,
    IntakePagesModule,
    ReferralsModule,
    EquipmentModule,
    FitSessionsModule,
    FollowUpsModule,
    OutcomesModule,
    TestClockModule,
  ],
})
export class AppModule {}
