import { Body, Controller, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { FromCaller, type Caller } from '../../http/caller.js';
import { Describe } from '../../http/documentation.js';
import { ChoosePasswordRequest, PasswordResetRequest } from './password-links.dto.js';
import { PasswordLinksService } from './password-links.service.js';

@ApiTags('Sign-in')
@Controller('v1')
export class PasswordLinksController {
  constructor(private readonly links: PasswordLinksService) {}

  @Post('password-resets')
  @Describe({
    id: 'requestPasswordReset',
    summary: 'Mail a link to choose another password by',
    description: 'The answer is the same whether or not anybody signs in with that address.',
    problems: [400],
  })
  request(@Body() request: PasswordResetRequest, @FromCaller() { requestId }: Caller): Promise<void> {
    return this.links.requestReset(request, requestId);
  }

  @Post('password-links/:link')
  @Describe({
    id: 'choosePassword',
    summary: 'Choose a password by a link from the mail; every sign-in ends',
    problems: [400, 410],
  })
  choose(
    @Param('link') link: string,
    @Body() request: ChoosePasswordRequest,
    @FromCaller() { requestId }: Caller,
  ): Promise<void> {
    return this.links.choose(link, request, requestId);
  }
}
