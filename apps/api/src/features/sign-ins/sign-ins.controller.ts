import { Body, Controller, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { FromCaller, type Caller } from '../../http/caller.js';
import { Describe } from '../../http/documentation.js';
import {
  AuthenticatorResponse,
  ConfirmSetUpRequest,
  FirstSignInResponse,
  RefreshRequest,
  SetUpRequest,
  SignInRequest,
  SignInResponse,
} from './sign-ins.dto.js';
import { SignInsService } from './sign-ins.service.js';

@ApiTags('Sign-in')
@Controller('v1/sign-ins')
export class SignInsController {
  constructor(private readonly signIns: SignInsService) {}

  @Post()
  @Describe({
    id: 'signIn',
    summary: 'Sign in to a studio',
    description:
      'Answers with a short-lived access token and a refresh token that is good for one refresh. 401 ' +
      '`sign-ins.second-factor-needed` asks for `code` too; `sign-ins.second-factor-to-set-up` gives an owner a ' +
      '`setUpToken` to set it up with.',
    returns: SignInResponse,
    status: 201,
    problems: [400, 401, 429],
  })
  signIn(@Body() request: SignInRequest, @FromCaller() caller: Caller): Promise<SignInResponse> {
    return this.signIns.signIn(request, caller);
  }

  @Post('second-factor')
  @Describe({
    id: 'beginFirstSecondFactor',
    summary: 'Set up the second factor an owner needs before the first sign-in',
    returns: AuthenticatorResponse,
    status: 201,
    problems: [400, 401, 409],
  })
  beginSetUp(
    @Body() request: SetUpRequest,
    @FromCaller() { requestId }: Caller,
  ): Promise<AuthenticatorResponse> {
    return this.signIns.beginSetUp(request, requestId);
  }

  @Post('second-factor/confirmation')
  @Describe({
    id: 'confirmFirstSecondFactor',
    summary: 'Give back a code of the authenticator, and be signed in',
    returns: FirstSignInResponse,
    status: 201,
    problems: [400, 401, 409, 422],
  })
  confirmSetUp(
    @Body() request: ConfirmSetUpRequest,
    @FromCaller() caller: Caller,
  ): Promise<FirstSignInResponse> {
    return this.signIns.confirmSetUp(request, caller);
  }

  @Post('refresh')
  @Describe({
    id: 'refreshSignIn',
    summary: 'Exchange the refresh token for a new pair',
    description: 'A token that was exchanged before ends the whole sign-in: somebody holds a copy.',
    returns: SignInResponse,
    status: 201,
    problems: [400, 401],
  })
  refresh(@Body() request: RefreshRequest, @FromCaller() caller: Caller): Promise<SignInResponse> {
    return this.signIns.refresh(request, caller);
  }

  @Post('end')
  @Describe({ id: 'endSignIn', summary: 'Sign out', problems: [400] })
  end(@Body() request: RefreshRequest): Promise<void> {
    return this.signIns.end(request);
  }
}
