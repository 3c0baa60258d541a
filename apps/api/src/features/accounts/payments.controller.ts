import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  CreatePaymentRequest,
  DepositUseResponse,
  ListPaymentsQuery,
  PaymentPage,
  PaymentResponse,
  ReversePaymentRequest,
  UseDepositRequest,
} from './payments.dto.js';
import { PaymentsService } from './payments.service.js';

const most = '409 `accounts.more-than-is-left` tells how much there is.';

@ApiTags('Accounts')
@Controller('v1/payments')
export class PaymentsController {
  constructor(private readonly payments: PaymentsService) {}

  @Post()
  @Describe({
    id: 'recordPayment',
    summary: 'Record money that was taken or given back',
    description: `A record only: no money is moved. ${most}`,
    returns: PaymentResponse,
    status: 201,
    problems: [400, 409, 422],
    once: true,
  })
  create(@Ctx() ctx: TenantContext, @Body() request: CreatePaymentRequest): Promise<PaymentResponse> {
    return this.payments.create(ctx, request);
  }

  @Get()
  @Describe({
    id: 'listPayments',
    summary: 'Records of money, oldest first',
    returns: PaymentPage,
    problems: [400],
  })
  list(@Ctx() ctx: TenantContext, @Query() query: ListPaymentsQuery): Promise<PaymentPage> {
    return this.payments.list(ctx, query);
  }

  @Post(':paymentId/reversal')
  @Describe({
    id: 'reversePayment',
    summary: 'Take back a record that was made by mistake',
    description: 'By another of the opposite amount; both stay.',
    returns: PaymentResponse,
    status: 201,
    problems: [400, 404, 409],
    once: true,
  })
  reverse(
    @Ctx() ctx: TenantContext,
    @Param('paymentId', idPipe) id: string,
    @Body() request: ReversePaymentRequest,
  ): Promise<PaymentResponse> {
    return this.payments.reverse(ctx, id, request);
  }

  @Post(':paymentId/uses')
  @Describe({
    id: 'useDeposit',
    summary: 'Count a deposit towards a receipt',
    description: most,
    returns: DepositUseResponse,
    status: 201,
    problems: [400, 404, 409, 422],
    once: true,
  })
  useDeposit(
    @Ctx() ctx: TenantContext,
    @Param('paymentId', idPipe) id: string,
    @Body() request: UseDepositRequest,
  ): Promise<DepositUseResponse> {
    return this.payments.useDeposit(ctx, id, request);
  }
}
