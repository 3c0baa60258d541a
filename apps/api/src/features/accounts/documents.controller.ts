import { Body, Controller, Get, Param, Post, Put, Query, StreamableFile } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe, DescribeFile } from '../../http/documentation.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  CreateCreditNoteRequest,
  CreateDocumentRequest,
  DocumentContentRequest,
  DocumentPage,
  DocumentResponse,
  ListDocumentsQuery,
} from './documents.dto.js';
import { DocumentsService } from './documents.service.js';

const step = '409 `accounts.not-possible` names the state and what it allows.';
const made = {
  returns: DocumentResponse,
  status: 201,
  problems: [400, 404, 409, 422],
  versioned: true,
  once: true,
} as const;

@ApiTags('Accounts')
@Controller('v1/account-documents')
export class DocumentsController {
  constructor(private readonly documents: DocumentsService) {}

  @Post()
  @Describe({
    ...made,
    id: 'createAccountDocument',
    summary: 'Draft a quote or a receipt',
    description:
      'Quantity times price is rounded line by line, half a minor unit away from zero; a discount on the whole is shared among the lines; tax is worked out on the sum of each class and rate (EN 16931-1, BR-CO-17) and shared among its lines. Lines, rates and the whole add up to the minor unit.',
    problems: [400, 409, 422],
  })
  create(@Ctx() ctx: TenantContext, @Body() request: CreateDocumentRequest): Promise<DocumentResponse> {
    return this.documents.create(ctx, request);
  }

  @Get()
  @Describe({
    id: 'listAccountDocuments',
    summary: 'Quotes, receipts and credit notes, in the order they were drafted',
    returns: DocumentPage,
    problems: [400],
  })
  list(@Ctx() ctx: TenantContext, @Query() query: ListDocumentsQuery): Promise<DocumentPage> {
    return this.documents.list(ctx, query);
  }

  @Get(':documentId')
  @Describe({
    id: 'getAccountDocument',
    summary: 'One quote, receipt or credit note',
    returns: DocumentResponse,
    problems: [404],
    versioned: true,
  })
  get(@Ctx() ctx: TenantContext, @Param('documentId', idPipe) id: string): Promise<DocumentResponse> {
    return this.documents.get(ctx, id);
  }

  @Get(':documentId/document.pdf')
  @DescribeFile({
    id: 'getAccountDocumentPdf',
    summary: 'The same on paper, A4 or Letter; a draft says that it is one',
    type: 'application/pdf',
    problems: [404, 409],
  })
  async pdf(@Ctx() ctx: TenantContext, @Param('documentId', idPipe) id: string): Promise<StreamableFile> {
    const { name, pdf } = await this.documents.pdf(ctx, id);
    return new StreamableFile(pdf, { type: 'application/pdf', disposition: `inline; filename="${name}"` });
  }

  @Put(':documentId')
  @Describe({
    id: 'changeAccountDocument',
    summary: 'Replace what a draft says',
    description: `All of it. ${step}`,
    returns: DocumentResponse,
    problems: [400, 404, 409, 422],
    ifMatch: true,
  })
  change(
    @Ctx() ctx: TenantContext,
    @Param('documentId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: DocumentContentRequest,
  ): Promise<DocumentResponse> {
    return this.documents.change(ctx, id, version, request);
  }

  @Post(':documentId/issue')
  @Describe({
    id: 'issueAccountDocument',
    summary: 'Issue a draft: it gets its number and stays as it is',
    description: `Numbers of a series follow one another in each year of the studio’s calendar, without a gap. ${step}`,
    returns: DocumentResponse,
    problems: [404, 409],
    ifMatch: true,
  })
  issue(
    @Ctx() ctx: TenantContext,
    @Param('documentId', idPipe) id: string,
    @IfMatch() version: number,
  ): Promise<DocumentResponse> {
    return this.documents.issue(ctx, id, version);
  }

  @Post(':documentId/discard')
  @Describe({
    id: 'discardAccountDocument',
    summary: 'Put a draft aside for good; it never had a number',
    description: step,
    returns: DocumentResponse,
    problems: [404, 409],
    ifMatch: true,
  })
  discard(
    @Ctx() ctx: TenantContext,
    @Param('documentId', idPipe) id: string,
    @IfMatch() version: number,
  ): Promise<DocumentResponse> {
    return this.documents.discard(ctx, id, version);
  }

  @Post(':documentId/receipt')
  @Describe({
    ...made,
    id: 'makeReceiptOfQuote',
    summary: 'Draft a receipt from an issued quote, at the prices quoted',
    description: `Tax by the rates of the day of supply, today. ${step}`,
  })
  makeReceipt(@Ctx() ctx: TenantContext, @Param('documentId', idPipe) id: string): Promise<DocumentResponse> {
    return this.documents.makeReceipt(ctx, id);
  }

  @Post(':documentId/credit-notes')
  @Describe({
    ...made,
    id: 'createCreditNote',
    summary: 'Correct an issued receipt by a credit note, in part or whole',
    description: `Issued at once. 409 \`accounts.more-than-is-left\` tells how much of a line is left. ${step}`,
  })
  credit(
    @Ctx() ctx: TenantContext,
    @Param('documentId', idPipe) id: string,
    @Body() request: CreateCreditNoteRequest,
  ): Promise<DocumentResponse> {
    return this.documents.credit(ctx, id, request);
  }
}
