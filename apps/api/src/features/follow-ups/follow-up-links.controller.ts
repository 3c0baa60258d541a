import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Describe } from '../../http/documentation.js';
import { RequestId } from '../../http/request-context.js';
import {
  FollowUpAnswersRequest,
  FollowUpLinkResponse,
  FollowUpReceivedResponse,
} from './follow-up-links.dto.js';
import { FollowUpLinksService } from './follow-up-links.service.js';

@ApiTags('Follow-up links')
@Controller('v1/follow-up-links')
export class FollowUpLinksController {
  constructor(private readonly followUps: FollowUpLinksService) {}

  @Get(':link')
  @Describe({
    id: 'openFollowUpLink',
    summary: 'What a follow-up asks; for the client, who has no account',
    returns: FollowUpLinkResponse,
    problems: [404, 410],
  })
  open(@Param('link') link: string): Promise<FollowUpLinkResponse> {
    return this.followUps.open(link);
  }

  @Post(':link/answers')
  @Describe({
    id: 'answerFollowUp',
    summary: 'Hand in the answers; the link is spent then',
    description: 'The answers are screened again. `advice` is what the client should be told at once.',
    returns: FollowUpReceivedResponse,
    status: 201,
    problems: [400, 404, 410, 422],
  })
  answer(
    @Param('link') link: string,
    @Body() request: FollowUpAnswersRequest,
    @RequestId() requestId: string,
  ): Promise<FollowUpReceivedResponse> {
    return this.followUps.answer(link, request, requestId);
  }
}
