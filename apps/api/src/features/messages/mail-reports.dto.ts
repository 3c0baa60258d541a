import { ApiProperty } from '@nestjs/swagger';

export const reportOutcomes = ['failed', 'delayed', 'delivered', 'not_ours'] as const;
export type ReportOutcome = (typeof reportOutcomes)[number];

export class MailReportResponse {
  @ApiProperty({
    enum: reportOutcomes,
    description: '`not_ours`: no report of a delivery, or about no message of ours; nothing was done.',
  })
  outcome: ReportOutcome;
}
