import { Controller, Headers, Post, Req } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiHeader, ApiTags } from '@nestjs/swagger';
import type { FastifyRequest } from 'fastify';
import { Describe } from '../../http/documentation.js';
import { RequestId } from '../../http/request-context.js';
import { MailReportResponse } from './mail-reports.dto.js';
import { MailReportsService } from './mail-reports.service.js';

const mailAsItCame = `From: MAILER-DAEMON@mail.example
To: studio@fitting.example
Subject: Undelivered Mail Returned to Sender
Content-Type: multipart/report; report-type=delivery-status; boundary="b"

--b
Content-Type: message/delivery-status

Reporting-MTA: dns; mail.example

Final-Recipient: rfc822; robin@riders.example
Action: failed
Status: 5.1.1

--b--
`;

@ApiTags('Messages')
@Controller('v1/mail-reports')
export class MailReportsController {
  constructor(private readonly reports: MailReportsService) {}

  @Post()
  @ApiConsumes('message/rfc822')
  @ApiBody({
    schema: { type: 'string', format: 'binary', example: mailAsItCame },
    description: 'The mail as it came (RFC 5322).',
  })
  @ApiHeader({
    name: 'Authorization',
    required: false,
    schema: { type: 'string', example: 'Bearer a-secret-of-the-mail-server' },
    description: 'The secret of MAIL_REPORT_SECRET. Without one there is no such route.',
  })
  @Describe({
    id: 'takeMailReport',
    summary: 'What came back to the sender’s address, as a mail server pipes it',
    description:
      'A report that a mail could not be delivered (RFC 3464) fails its message and opens a task; where the address is ' +
      'at fault, nothing more is mailed to it.',
    returns: MailReportResponse,
    problems: [400, 401, 404, 503],
  })
  take(
    @Headers('authorization') authorization: string | undefined,
    @Req() request: FastifyRequest,
    @RequestId() requestId: string,
  ): Promise<MailReportResponse> {
    return this.reports.take(authorization, request.body, requestId);
  }
}
