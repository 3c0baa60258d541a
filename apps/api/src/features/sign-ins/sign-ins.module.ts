import { Module } from '@nestjs/common';
import { SignInsController } from './sign-ins.controller.js';
import { SignInsService } from './sign-ins.service.js';

@Module({ controllers: [SignInsController], providers: [SignInsService] })
export class SignInsModule {}
