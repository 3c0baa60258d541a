import { Body, Controller, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Open } from '../../http/access.js';
import { Describe } from '../../http/documentation.js';
import { RequestId } from '../../http/request-context.js';
import { RefreshRequest, SignInRequest, SignInResponse } from './sign-ins.dto.js';
import { SignInsService } from './sign-ins.service.js';

@ApiTags('Sign-in')
@Controller('v1/sign-ins')
@Open()
export class SignInsController {
  constructor(private readonly signIns: SignInsService) {}

  @Post()
  @Describe({
    id: 'signIn',
    summary: 'Sign in to a studio',
    description: 'Answers with a short-lived access token and a refresh token that is good for one refresh.',
    returns: SignInResponse,
    status: 201,
    problems: [400, 401],
  })
  signIn(@Body() request: SignInRequest, @RequestId() requestId: string): Promise<SignInResponse> {
    return this.signIns.signIn(request, requestId);
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
  refresh(@Body() request: RefreshRequest, @RequestId() requestId: string): Promise<SignInResponse> {
    return this.signIns.refresh(request, requestId);
  }

  @Post('end')
  @Describe({ id: 'endSignIn', summary: 'Sign out', problems: [400] })
  end(@Body() request: RefreshRequest): Promise<void> {
    return this.signIns.end(request);
  }
}
