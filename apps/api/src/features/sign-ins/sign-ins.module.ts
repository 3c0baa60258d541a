import { Module } from '@nestjs/common';
import { ApiKeysController } from './api-keys.controller.js';
import { ApiKeysService } from './api-keys.service.js';
import { Attempts } from './attempts.js';
import { ChoosePasswordController } from './choose-password.controller.js';
import { MyAccountController } from './my-account.controller.js';
import { MyAccountService } from './my-account.service.js';
import { PasswordLinksController } from './password-links.controller.js';
import { PasswordLinksService } from './password-links.service.js';
import { SecondFactors } from './second-factors.js';
import { SignInsController } from './sign-ins.controller.js';
import { SignInsService } from './sign-ins.service.js';

@Module({
  controllers: [
    SignInsController,
    PasswordLinksController,
    ChoosePasswordController,
    MyAccountController,
    ApiKeysController,
  ],
  providers: [
    SignInsService,
    PasswordLinksService,
    MyAccountService,
    ApiKeysService,
    Attempts,
    SecondFactors,
  ],
})
export class SignInsModule {}
