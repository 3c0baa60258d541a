import { Body, Controller, Delete, Get, Param, Post, Put } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  ChangePasswordRequest,
  CodeRequest,
  MyAccountResponse,
  PasswordCheckRequest,
  RemoveSecondFactorRequest,
  StandingSignInResponse,
} from './my-account.dto.js';
import { MyAccountService } from './my-account.service.js';
import { AuthenticatorResponse, RecoveryCodesResponse } from './sign-ins.dto.js';

@ApiTags('My account')
@Controller('v1/my-account')
export class MyAccountController {
  constructor(private readonly account: MyAccountService) {}

  @Get()
  @Describe({ id: 'getMyAccount', summary: 'Who is signed in, and how', returns: MyAccountResponse })
  get(@Ctx() ctx: TenantContext): Promise<MyAccountResponse> {
    return this.account.get(ctx);
  }

  @Put('password')
  @Describe({
    id: 'changeMyPassword',
    summary: 'Choose another password; every other sign-in ends',
    problems: [400, 422],
  })
  changePassword(@Ctx() ctx: TenantContext, @Body() request: ChangePasswordRequest): Promise<void> {
    return this.account.changePassword(ctx, request);
  }

  @Post('second-factor')
  @Describe({
    id: 'beginMySecondFactor',
    summary: 'Begin to set up a second factor',
    description: 'It is asked for from when a code of it was given back.',
    returns: AuthenticatorResponse,
    status: 201,
    problems: [400, 409, 422],
  })
  beginSecondFactor(
    @Ctx() ctx: TenantContext,
    @Body() request: PasswordCheckRequest,
  ): Promise<AuthenticatorResponse> {
    return this.account.beginSecondFactor(ctx, request);
  }

  @Post('second-factor/confirmation')
  @Describe({
    id: 'confirmMySecondFactor',
    summary: 'Give back a code of the authenticator',
    returns: RecoveryCodesResponse,
    status: 201,
    problems: [400, 409, 422],
  })
  confirmSecondFactor(
    @Ctx() ctx: TenantContext,
    @Body() request: CodeRequest,
  ): Promise<RecoveryCodesResponse> {
    return this.account.confirmSecondFactor(ctx, request);
  }

  @Post('second-factor/removal')
  @Describe({
    id: 'removeMySecondFactor',
    summary: 'Do without the second factor, or make room for another',
    description: 'Where owners need one, an owner sets the next up at the next sign-in.',
    problems: [400, 422],
  })
  removeSecondFactor(@Ctx() ctx: TenantContext, @Body() request: RemoveSecondFactorRequest): Promise<void> {
    return this.account.removeSecondFactor(ctx, request);
  }

  @Get('sign-ins')
  @Describe({ id: 'listMySignIns', summary: 'Where you are signed in', returns: [StandingSignInResponse] })
  listSignIns(@Ctx() ctx: TenantContext): Promise<StandingSignInResponse[]> {
    return this.account.listSignIns(ctx);
  }

  @Delete('sign-ins/:signInId')
  @Describe({
    id: 'endMySignIn',
    summary: 'Sign out elsewhere',
    description: 'An access token given out before stays good for its ten minutes.',
    problems: [404],
  })
  endSignIn(@Ctx() ctx: TenantContext, @Param('signInId', idPipe) signInId: string): Promise<void> {
    return this.account.endSignIn(ctx, signInId);
  }
}
