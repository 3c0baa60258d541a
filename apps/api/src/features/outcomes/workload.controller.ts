import { Controller, Get, Header, Query, StreamableFile } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe, DescribeFile } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { workloadColumns } from './workload-table.js';
import { WorkloadQuery, WorkloadResponse } from './workload.dto.js';
import { WorkloadService } from './workload.service.js';

@ApiTags('Outcomes')
@Controller('v1/outcomes')
export class WorkloadController {
  constructor(private readonly workloads: WorkloadService) {}

  @Get('workload')
  @Describe({
    id: 'reviewWorkload',
    summary:
      'How the studio worked: visits, no-shows, late cancellations, utilisation, revenue, shoe work, referrals',
    returns: WorkloadResponse,
    problems: [400],
  })
  workload(@Ctx() ctx: TenantContext, @Query() query: WorkloadQuery): Promise<WorkloadResponse> {
    return this.workloads.workload(ctx, query);
  }

  @Get('workload.csv')
  @Header('content-type', 'text/csv; charset=utf-8')
  @Header('content-disposition', 'attachment; filename="workload.csv"')
  @DescribeFile({
    id: 'exportWorkloadCsv',
    summary: 'The same as CSV, small counts hidden',
    description: `Columns: ${workloadColumns}.`,
    type: 'text/csv',
    problems: [400],
  })
  csv(@Ctx() ctx: TenantContext, @Query() query: WorkloadQuery): Promise<string> {
    return this.workloads.csv(ctx, query);
  }

  @Get('workload.pdf')
  @DescribeFile({
    id: 'exportWorkloadPdf',
    summary: 'The same on paper, small counts hidden',
    type: 'application/pdf',
    problems: [400],
  })
  async pdf(@Ctx() ctx: TenantContext, @Query() query: WorkloadQuery): Promise<StreamableFile> {
    return new StreamableFile(await this.workloads.pdf(ctx, query), {
      type: 'application/pdf',
      disposition: 'attachment; filename="workload.pdf"',
    });
  }
}
