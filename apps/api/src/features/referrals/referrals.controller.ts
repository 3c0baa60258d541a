import { Body, Controller, Get, Header, Param, Post, StreamableFile } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe, DescribeFile } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { ClearRequest } from '../screenings/index.js';
import {
  AcknowledgeRequest,
  EndReferralRequest,
  HandOverRequest,
  LetterResponse,
  RecordAnswerRequest,
  ReferralResponse,
  ReferralSummaryResponse,
} from './referrals.dto.js';
import { ReferralsService } from './referrals.service.js';

const read = 'Health data: every reading is kept in the audit log.';
const step = 'A step that cannot follow is refused with the state of the case and the states `allowed` next.';

@ApiTags('Referrals')
@Controller('v1')
export class ReferralsController {
  constructor(private readonly referrals: ReferralsService) {}

  @Get('clients/:clientId/referrals')
  @Describe({
    id: 'listReferrals',
    summary: "A client's referral cases, newest first",
    description: read,
    returns: [ReferralSummaryResponse],
    problems: [404],
  })
  list(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
  ): Promise<ReferralSummaryResponse[]> {
    return this.referrals.list(ctx, clientId);
  }

  @Get('referrals/:referralId')
  @Describe({
    id: 'getReferral',
    summary: 'A referral case: what it rests on and how far it has come',
    description: read,
    returns: ReferralResponse,
    problems: [404],
  })
  get(@Ctx() ctx: TenantContext, @Param('referralId', idPipe) id: string): Promise<ReferralResponse> {
    return this.referrals.get(ctx, id);
  }

  @Get('referrals/:referralId/letter')
  @Describe({
    id: 'getReferralLetter',
    summary: 'The letter to the clinician as text',
    description: `The client's own answers and what the studio asks; no diagnosis. As handed over, once it was. ${read}`,
    returns: LetterResponse,
    problems: [404],
  })
  letter(@Ctx() ctx: TenantContext, @Param('referralId', idPipe) id: string): Promise<LetterResponse> {
    return this.referrals.letter(ctx, id);
  }

  @Get('referrals/:referralId/letter.pdf')
  @Header('content-disposition', 'inline; filename="letter.pdf"')
  @DescribeFile({
    id: 'getReferralLetterPdf',
    summary: 'The same letter as PDF, A4',
    description: read,
    type: 'application/pdf',
    problems: [404],
  })
  async letterPdf(
    @Ctx() ctx: TenantContext,
    @Param('referralId', idPipe) id: string,
  ): Promise<StreamableFile> {
    return new StreamableFile(await this.referrals.letterPdf(ctx, id), { type: 'application/pdf' });
  }

  @Post('referrals/:referralId/hand-over')
  @Describe({
    id: 'handOverReferral',
    summary: 'Record that the client was given the letter; it is kept as it was then',
    description: step,
    returns: ReferralResponse,
    problems: [400, 404, 409],
  })
  handOver(
    @Ctx() ctx: TenantContext,
    @Param('referralId', idPipe) id: string,
    @Body() request: HandOverRequest,
  ): Promise<ReferralResponse> {
    return this.referrals.handOver(ctx, id, request);
  }

  @Post('referrals/:referralId/acknowledgement')
  @Describe({
    id: 'acknowledgeReferral',
    summary: 'Record that the client understood and will go',
    description: step,
    returns: ReferralResponse,
    problems: [400, 404, 409],
  })
  acknowledge(
    @Ctx() ctx: TenantContext,
    @Param('referralId', idPipe) id: string,
    @Body() request: AcknowledgeRequest,
  ): Promise<ReferralResponse> {
    return this.referrals.acknowledge(ctx, id, request);
  }

  @Post('referrals/:referralId/answer')
  @Describe({
    id: 'answerReferral',
    summary: 'Record what the clinician answered; it lifts nothing yet',
    description: step,
    returns: ReferralResponse,
    problems: [400, 404, 409],
  })
  answer(
    @Ctx() ctx: TenantContext,
    @Param('referralId', idPipe) id: string,
    @Body() request: RecordAnswerRequest,
  ): Promise<ReferralResponse> {
    return this.referrals.recordAnswer(ctx, id, request);
  }

  @Post('referrals/:referralId/clearance')
  @Describe({
    id: 'clearReferral',
    summary: 'Record which activities a clinician allows again, and until when',
    description: `For the findings of this case. ${step}`,
    returns: ReferralResponse,
    problems: [400, 404, 409, 422],
  })
  clear(
    @Ctx() ctx: TenantContext,
    @Param('referralId', idPipe) id: string,
    @Body() request: ClearRequest,
  ): Promise<ReferralResponse> {
    return this.referrals.clear(ctx, id, request);
  }

  @Post('referrals/:referralId/end')
  @Describe({
    id: 'endReferral',
    summary: 'End a case without a clearance; what its findings bar stays barred',
    description: step,
    returns: ReferralResponse,
    problems: [400, 404, 409],
  })
  end(
    @Ctx() ctx: TenantContext,
    @Param('referralId', idPipe) id: string,
    @Body() request: EndReferralRequest,
  ): Promise<ReferralResponse> {
    return this.referrals.end(ctx, id, request);
  }
}
