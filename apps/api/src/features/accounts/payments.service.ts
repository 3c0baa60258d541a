import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, type TenantContext } from '@studio/database';
import { decimalAmount } from '@studio/money';
import type { EntityManager } from 'typeorm';
import { pageOf, pageSize } from '../../http/paging.js';
import { found, InvalidRequest, UnknownReference } from '../../http/problem.js';
import { MoreThanIsLeft, NotSetUp, PaymentNotPossible } from './accounts.errors.js';
import { openOf } from './document-response.js';
import { findDocument, lockDocument, type DocumentRecord } from './documents.queries.js';
import type {
  CreatePaymentRequest,
  DepositUseResponse,
  ListPaymentsQuery,
  PaymentPage,
  PaymentResponse,
  ReversePaymentRequest,
  UseDepositRequest,
} from './payments.dto.js';
import * as queries from './payments.queries.js';
import { findSettings } from './price-list.queries.js';

/** What a record of money is for: whose, of which document or deposit, and in which currency. */
type Purpose = Pick<queries.PaymentRecord, 'clientId' | 'documentId' | 'depositId' | 'currency'>;

/** Money as it was taken and given back. Nothing is transferred here, and no record is changed afterwards. */
@Injectable()
export class PaymentsService {
  constructor(private readonly transaction: TenantTransaction) {}

  async create(ctx: TenantContext, request: CreatePaymentRequest): Promise<PaymentResponse> {
    return this.transaction.runOnce(ctx, async (tx) => {
      const purpose = await purposes[request.kind](tx, ctx.studioId, request);
      const { kind, method, amountMinor, note = null } = request;
      const signed = kind === 'refund' ? -amountMinor : amountMinor;
      return this.recorded(tx, ctx, purpose, { kind, method, amountMinor: signed, note, reversesId: null });
    });
  }

  async list(ctx: TenantContext, query: ListPaymentsQuery): Promise<PaymentPage> {
    const limit = pageSize(query);
    const { clientId = null, documentId = null, after = null } = query;
    const page = { studioId: ctx.studioId, clientId, documentId, after, limit: limit + 1 };
    const rows = await this.transaction.read(ctx, (sql) => queries.listPayments(sql, page));
    return pageOf(rows.map(toResponse), limit);
  }

  /** Take back a record that was made by mistake, by one of the opposite amount. */
  async reverse(ctx: TenantContext, id: string, { reason }: ReversePaymentRequest): Promise<PaymentResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.runOnce(ctx, async (tx) => {
      await lockFor(tx, ctx.studioId, found(await queries.findPayment(tx, key)));
      const mistaken = found(await queries.findPayment(tx, key));
      const { kind, method, amountMinor, unusedMinor } = mistaken;
      if (kind === 'reversal') throw new PaymentNotPossible('paymentId', 'is a reversal itself');
      if (mistaken.reversed) throw new PaymentNotPossible('paymentId', 'is reversed already');
      if (unusedMinor !== null && unusedMinor < amountMinor) {
        throw new PaymentNotPossible('paymentId', 'is a deposit that was used or given back');
      }
      const opposite = { method, amountMinor: -amountMinor, note: reason, reversesId: id };
      return this.recorded(tx, ctx, mistaken, { kind: 'reversal', ...opposite });
    });
  }

  /** Count a deposit, or a part of it, towards a receipt of the same client. */
  async useDeposit(
    ctx: TenantContext,
    depositId: string,
    { documentId, amountMinor: wished }: UseDepositRequest,
  ): Promise<DepositUseResponse> {
    const { studioId } = ctx;
    return this.transaction.runOnce(ctx, async (tx) => {
      const receipt = await receiptToPay(tx, studioId, documentId);
      const { unusedMinor, clientId, currency } = await depositOf(tx, studioId, depositId, found);
      if (receipt.clientId !== clientId) throw new PaymentNotPossible('documentId', 'is of another client');
      if (receipt.currency !== currency) throw new PaymentNotPossible('documentId', 'is in another currency');
      const most = Math.min(unusedMinor, openOf(receipt));
      const amountMinor = wished ?? most;
      if (amountMinor <= 0 || amountMinor > most) throw new MoreThanIsLeft('amountMinor', Math.max(most, 0));
      const recordedBy = personOf(ctx);
      const row = { studioId, depositId, documentId, amountMinor, recordedBy };
      const id = await queries.insertDepositUse(tx, row);
      await recordAudit(tx, ctx, { action: 'deposits.use', recordId: depositId });
      const openMinor = openOf(receipt) - amountMinor;
      return { id, depositId, documentId, amountMinor, unusedMinor: unusedMinor - amountMinor, openMinor };
    });
  }

  private async recorded(
    tx: EntityManager,
    ctx: TenantContext,
    { clientId, documentId, depositId, currency }: Purpose,
    row: Pick<queries.PaymentRecord, 'kind' | 'method' | 'amountMinor' | 'note' | 'reversesId'>,
  ): Promise<PaymentResponse> {
    const { studioId } = ctx;
    const id = await queries.insertPayment(tx, {
      ...{ studioId, clientId, documentId, depositId, currency, recordedBy: personOf(ctx) },
      ...row,
    });
    await recordAudit(tx, ctx, { action: `payments.${row.kind}`, recordId: id });
    return toResponse(found(await queries.findPayment(tx, { studioId, id })));
  }
}

const purposes: Record<
  CreatePaymentRequest['kind'],
  (tx: EntityManager, studioId: string, request: CreatePaymentRequest) => Promise<Purpose>
> = {
  async payment(tx, studioId, request) {
    const documentId = named(request, 'documentId');
    const receipt = await receiptToPay(tx, studioId, documentId);
    checkLeft(request, openOf(receipt));
    return { clientId: receipt.clientId, documentId, depositId: null, currency: receipt.currency };
  },

  async deposit(tx, studioId, request) {
    const clientId = named(request, 'clientId');
    const settings = await findSettings(tx, studioId);
    if (!settings) throw new NotSetUp();
    return { clientId, documentId: null, depositId: null, currency: settings.currency };
  },

  async refund(tx, studioId, request) {
    if (request.depositId !== undefined) {
      const depositId = named(request, 'depositId');
      const { unusedMinor, clientId, currency } = await depositOf(tx, studioId, depositId, reference);
      checkLeft(request, unusedMinor);
      return { clientId, documentId: null, depositId, currency };
    }
    const documentId = named(request, 'documentId');
    const receiptId = (await creditNote(tx, studioId, documentId)).receiptId ?? '';
    await lockDocument(tx, { studioId, id: receiptId });
    const note = await creditNote(tx, studioId, documentId);
    const receipt = found(await findDocument(tx, { studioId, id: receiptId }));
    // What was given back for it already is below 0.
    checkLeft(request, Math.min(-openOf(receipt), note.grossMinor + note.paidMinor));
    return { clientId: receipt.clientId, documentId, depositId: null, currency: receipt.currency };
  },
};

async function creditNote(tx: EntityManager, studioId: string, id: string): Promise<DocumentRecord> {
  const note = await findDocument(tx, { studioId, id });
  if (!note) throw new UnknownReference('documentId');
  if (note.kind !== 'credit_note') throw new PaymentNotPossible('documentId', 'is no credit note');
  return note;
}

async function receiptToPay(tx: EntityManager, studioId: string, id: string): Promise<DocumentRecord> {
  await lockDocument(tx, { studioId, id });
  const receipt = await findDocument(tx, { studioId, id });
  if (!receipt) throw new UnknownReference('documentId');
  if (receipt.kind !== 'receipt' || receipt.state !== 'issued') {
    throw new PaymentNotPossible('documentId', 'is no issued receipt with something to pay');
  }
  return receipt;
}

function reference<T>(record: T | null): T {
  if (record === null) throw new UnknownReference('depositId');
  return record;
}

/** @param orElse what a deposit that does not exist is answered with */
async function depositOf(
  tx: EntityManager,
  studioId: string,
  id: string,
  orElse: <T>(record: T | null) => T,
): Promise<queries.PaymentRecord & { unusedMinor: number; clientId: string }> {
  const before = orElse(await queries.findPayment(tx, { studioId, id }));
  if (before.kind !== 'deposit') throw new PaymentNotPossible('depositId', 'is no deposit');
  await lockFor(tx, studioId, before);
  const row = orElse(await queries.findPayment(tx, { studioId, id }));
  return { ...row, unusedMinor: row.unusedMinor ?? 0, clientId: row.clientId ?? '' };
}

/** What the money is counted against waits until the transaction ends. */
async function lockFor(tx: EntityManager, studioId: string, row: queries.PaymentRecord): Promise<void> {
  if (row.documentId !== null) {
    const document = await findDocument(tx, { studioId, id: row.documentId });
    await lockDocument(tx, { studioId, id: document?.receiptId ?? row.documentId });
  }
  if (row.clientId !== null) await queries.lockClient(tx, { studioId, clientId: row.clientId });
}

function checkLeft({ amountMinor }: CreatePaymentRequest, leftMinor: number): void {
  if (amountMinor > leftMinor) throw new MoreThanIsLeft('amountMinor', Math.max(leftMinor, 0));
}

/** The one record the kind of money is for; naming another is a mistake. */
function named(request: CreatePaymentRequest, field: 'clientId' | 'documentId' | 'depositId'): string {
  for (const other of ['clientId', 'documentId', 'depositId'] as const) {
    if (other !== field && request[other] !== undefined) {
      throw new InvalidRequest([{ field: other, message: `must not stand beside ${field}` }]);
    }
  }
  const id = request[field];
  if (id === undefined) {
    throw new InvalidRequest([{ field, message: `must be given for a ${request.kind}` }]);
  }
  return id;
}

function personOf({ userId }: TenantContext): string {
  if (userId === null) throw new Error('money is recorded by a person');
  return userId;
}

function toResponse({ reversed, ...row }: queries.PaymentRecord): PaymentResponse {
  return { ...row, amount: decimalAmount(row.amountMinor, row.currency) };
}
