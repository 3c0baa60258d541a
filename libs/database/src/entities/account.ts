import { Column, Entity } from 'typeorm';
import { RecordedRow, safeInteger, TenantRow } from './columns.js';

/** How a studio sells: its currency, whether its prices hold the tax, what its papers say. */
@Entity('account_settings')
export class AccountSettings extends RecordedRow {
  @Column('text')
  currency: string;

  /** Whether prices on quotes and receipts hold the tax. */
  @Column('boolean', { name: 'tax_included' })
  taxIncluded: boolean;

  @Column('text', { name: 'seller_name' })
  sellerName: string;

  @Column('text', { name: 'seller_address', nullable: true })
  sellerAddress: string | null;

  @Column('text', { name: 'seller_tax_number', nullable: true })
  sellerTaxNumber: string | null;

  @Column('text', { nullable: true })
  footer: string | null;

  @Column('text')
  paper: Paper;

  @Column('text', { name: 'quote_series' })
  quoteSeries: string;

  @Column('text', { name: 'receipt_series' })
  receiptSeries: string;

  @Column('text', { name: 'credit_note_series' })
  creditNoteSeries: string;

  @Column('integer', { default: 1 })
  version: number;
}

export const papers = ['A4', 'LETTER'] as const;
export type Paper = (typeof papers)[number];

/** The rate of a tax class from one day to another, both included; no two of a class on one day. */
@Entity('tax_rates')
export class TaxRate extends RecordedRow {
  @Column('text', { name: 'tax_class' })
  taxClass: string;

  /** Percent, as decimal text. */
  @Column('numeric', { name: 'tax_rate_percent' })
  taxRatePercent: string;

  @Column('date', { name: 'valid_from' })
  validFrom: string;

  /** Null while no end is known. */
  @Column('date', { name: 'valid_until', nullable: true })
  validUntil: string | null;

  @Column('integer', { default: 1 })
  version: number;
}

/** A line of the price list. */
@Entity('parts')
export class Part extends RecordedRow {
  @Column('text')
  name: string;

  @Column('text')
  kind: PartKind;

  @Column('bigint', { name: 'price_minor', transformer: safeInteger })
  priceMinor: number;

  @Column('text')
  currency: string;

  @Column('text', { name: 'tax_class' })
  taxClass: string;

  @Column('timestamptz', { name: 'retired_at', nullable: true })
  retiredAt: Date | null;

  @Column('integer', { default: 1 })
  version: number;
}

export const partKinds = [
  'cleat',
  'cleat_wedge',
  'pedal',
  'insole',
  'shoe',
  'saddle',
  'seatpost',
  'stem',
  'handlebar',
  'crank',
  'spacer',
  'tape',
  'other',
] as const;
export type PartKind = (typeof partKinds)[number];

/** The last number given in a series and year; see the migration. */
@Entity('number_series')
export class NumberSeries extends TenantRow {
  @Column('text')
  series: string;

  @Column('integer')
  year: number;

  @Column('integer', { name: 'last_number' })
  lastNumber: number;

  @Column('timestamptz', { name: 'last_issued_at' })
  lastIssuedAt: Date;
}

export const documentKinds = ['quote', 'receipt', 'credit_note'] as const;
export type DocumentKind = (typeof documentKinds)[number];

/** A receipt that is credited stays issued; credit notes tell how much of it is left. */
export const documentStates = ['draft', 'issued', 'discarded'] as const;
export type DocumentState = (typeof documentStates)[number];

/** Who sells, as printed on a document that is issued. */
export interface Seller {
  readonly name: string;
  readonly address: string | null;
  readonly taxNumber: string | null;
  readonly footer: string | null;
}

/** A quote, a receipt or a credit note. Amounts of a credit note are positive; its kind tells that they count against. */
@Entity('account_documents')
export class AccountDocument extends RecordedRow {
  @Column('text')
  kind: DocumentKind;

  @Column('text', { default: 'draft' })
  state: DocumentState;

  /** Null for a sale to somebody who is no client. */
  @Column('uuid', { name: 'client_id', nullable: true })
  clientId: string | null;

  @Column('text', { name: 'buyer_name', nullable: true })
  buyerName: string | null;

  @Column('text', { name: 'buyer_address', nullable: true })
  buyerAddress: string | null;

  @Column('text', { name: 'buyer_tax_number', nullable: true })
  buyerTaxNumber: string | null;

  /** Printed. */
  @Column('text', { nullable: true })
  note: string | null;

  /** The day of supply, which the rates of tax are those of. */
  @Column('date', { name: 'supplied_on' })
  suppliedOn: string;

  /** Until when a quote stands. */
  @Column('date', { name: 'valid_until', nullable: true })
  validUntil: string | null;

  @Column('text')
  currency: string;

  @Column('boolean', { name: 'tax_included' })
  taxIncluded: boolean;

  @Column('numeric', { name: 'discount_percent', nullable: true })
  discountPercent: string | null;

  @Column('bigint', { name: 'discount_minor', nullable: true, transformer: safeInteger })
  discountMinor: number | null;

  @Column('bigint', { name: 'net_minor', transformer: safeInteger })
  netMinor: number;

  @Column('bigint', { name: 'tax_minor', transformer: safeInteger })
  taxMinor: number;

  @Column('bigint', { name: 'gross_minor', transformer: safeInteger })
  grossMinor: number;

  @Column('text')
  series: string;

  @Column('integer', { nullable: true })
  year: number | null;

  @Column('integer', { nullable: true })
  number: number | null;

  @Column('timestamptz', { name: 'issued_at', nullable: true })
  issuedAt: Date | null;

  @Column('uuid', { name: 'issued_by', nullable: true })
  issuedBy: string | null;

  @Column('jsonb', { nullable: true })
  seller: Seller | null;

  /** The quote a receipt was made from. */
  @Column('uuid', { name: 'quote_id', nullable: true })
  quoteId: string | null;

  /** The receipt a credit note corrects, and why. */
  @Column('uuid', { name: 'receipt_id', nullable: true })
  receiptId: string | null;

  @Column('text', { nullable: true })
  reason: string | null;

  @Column('integer', { default: 1 })
  version: number;
}

@Entity('account_lines')
export class AccountLine extends TenantRow {
  @Column('uuid', { name: 'document_id' })
  documentId: string;

  /** 1 for the first. */
  @Column('integer')
  position: number;

  @Column('uuid', { name: 'service_id', nullable: true })
  serviceId: string | null;

  @Column('uuid', { name: 'part_id', nullable: true })
  partId: string | null;

  /** The visit it was earned in. */
  @Column('uuid', { name: 'appointment_id', nullable: true })
  appointmentId: string | null;

  @Column('uuid', { name: 'credits_line_id', nullable: true })
  creditsLineId: string | null;

  @Column('text')
  description: string;

  /** Decimal text. */
  @Column('numeric')
  quantity: string;

  @Column('bigint', { name: 'unit_price_minor', transformer: safeInteger })
  unitPriceMinor: number;

  @Column('numeric', { name: 'discount_percent', nullable: true })
  discountPercent: string | null;

  @Column('bigint', { name: 'discount_minor', nullable: true, transformer: safeInteger })
  discountMinor: number | null;

  /** By its own discount and its share of the discount on the whole. */
  @Column('bigint', { name: 'taken_off_minor', transformer: safeInteger })
  takenOffMinor: number;

  @Column('text', { name: 'tax_class' })
  taxClass: string;

  @Column('numeric', { name: 'tax_rate_percent' })
  taxRatePercent: string;

  @Column('bigint', { name: 'net_minor', transformer: safeInteger })
  netMinor: number;

  @Column('bigint', { name: 'tax_minor', transformer: safeInteger })
  taxMinor: number;

  @Column('bigint', { name: 'gross_minor', transformer: safeInteger })
  grossMinor: number;
}

export const paymentKinds = ['payment', 'deposit', 'refund', 'reversal'] as const;
export type PaymentKind = (typeof paymentKinds)[number];

export const paymentMethods = ['cash', 'card_terminal', 'bank_transfer'] as const;
export type PaymentMethod = (typeof paymentMethods)[number];

/** Money as it was taken (positive) or given back (negative); a record, no transfer. */
@Entity('payments')
export class Payment extends RecordedRow {
  @Column('text')
  kind: PaymentKind;

  @Column('text')
  method: PaymentMethod;

  @Column('bigint', { name: 'amount_minor', transformer: safeInteger })
  amountMinor: number;

  @Column('text')
  currency: string;

  @Column('uuid', { name: 'client_id', nullable: true })
  clientId: string | null;

  /** The receipt it pays, or the credit note it pays back. */
  @Column('uuid', { name: 'document_id', nullable: true })
  documentId: string | null;

  /** The deposit it pays back. */
  @Column('uuid', { name: 'deposit_id', nullable: true })
  depositId: string | null;

  /** The mistaken record it takes back. */
  @Column('uuid', { name: 'reverses_id', nullable: true })
  reversesId: string | null;

  @Column('text', { nullable: true })
  note: string | null;

  @Column('uuid', { name: 'recorded_by' })
  recordedBy: string;
}

/** A deposit, or a part of it, counted towards a receipt. */
@Entity('deposit_uses')
export class DepositUse extends RecordedRow {
  @Column('uuid', { name: 'deposit_id' })
  depositId: string;

  @Column('uuid', { name: 'document_id' })
  documentId: string;

  @Column('bigint', { name: 'amount_minor', transformer: safeInteger })
  amountMinor: number;

  @Column('uuid', { name: 'recorded_by' })
  recordedBy: string;
}
