import type { DocumentKind, Paper, Seller } from '@studio/database';
import { decimalAmount } from '@studio/money';
import { localDay } from '../../http/local-days.js';
import { pdfFonts } from '@studio/documents';
import type { DocumentResponse, LineResponse } from './documents.dto.js';

const mm = 72 / 25.4;
const side = 20 * mm;
const ink = '#111111';
const grey = '#444444';
const small = 8;
const normal = 9.5;

const titles: Readonly<Record<DocumentKind, string>> = {
  quote: 'Quote',
  receipt: 'Receipt',
  credit_note: 'Credit note',
};

export interface PrintedDocument {
  readonly document: DocumentResponse;
  readonly seller: Seller;
  readonly paper: Paper;
  readonly timeZone: string;
  /** Number of the receipt a credit note corrects. */
  readonly corrects: string | null;
}

/** A quote, receipt or credit note on paper: text that can be selected, tagged, its lines a table; legible in grey. */
export async function documentPdf(printed: PrintedDocument): Promise<Buffer> {
  const { document, seller, paper } = printed;
  const { default: PDFDocument } = await import('pdfkit');
  const pdf = new PDFDocument({
    size: paper,
    margins: { top: 18 * mm, bottom: 20 * mm, left: side, right: side },
    pdfVersion: '1.7',
    tagged: true,
    lang: 'en',
    displayTitle: true,
    bufferPages: true,
    info: { Title: `${titles[document.kind]} ${document.number ?? '(draft)'}`, Author: seller.name },
  });
  const chunks: Buffer[] = [];
  pdf.on('data', (chunk: Buffer) => chunks.push(chunk));
  const done = new Promise<Buffer>((finished, failed) => {
    pdf.on('error', failed);
    pdf.on('end', () => {
      finished(Buffer.concat(chunks));
    });
  });
  new Writer(pdf, printed).write();
  pdf.end();
  return done;
}

interface Column {
  readonly heading: string;
  /** Part of the width. */
  readonly share: number;
  readonly of: (line: LineResponse) => string;
}

type Cell = { readonly text: string; readonly width: number; readonly align: 'left' | 'right' };

class Writer {
  private readonly root: PDFKit.PDFStructureElement;
  private readonly width: number;

  constructor(
    private readonly pdf: PDFKit.PDFDocument,
    private readonly printed: PrintedDocument,
  ) {
    this.root = pdf.struct('Document');
    pdf.addStructure(this.root);
    this.width = pdf.page.width - 2 * side;
  }

  write(): void {
    const { document, seller } = this.printed;
    this.parties();
    this.pdf.moveDown(1.2);
    this.text('H1', `${titles[document.kind]} ${document.number ?? '– draft'}`, { bold: true, size: 16 });
    this.text('P', this.facts().join('\n'), { size: small, colour: grey });
    this.pdf.moveDown(1);
    this.lines();
    this.pdf.moveDown(0.6);
    this.sums();
    this.pdf.moveDown(0.8);
    this.text('P', this.taxNote(), { size: small, colour: grey });
    for (const words of [document.note, seller.footer]) {
      if (words === null) continue;
      this.pdf.moveDown(0.8);
      this.text('P', words);
    }
    this.root.end();
    this.footPages();
  }

  /** Seller on the left, buyer on the right. */
  private parties(): void {
    const { document, seller } = this.printed;
    const { buyerName, buyerAddress, buyerTaxNumber } = document;
    const top = this.pdf.y;
    const half = this.width / 2 - 4 * mm;
    const taxNumber = (number: string | null) => (number === null ? null : `Tax number ${number}`);
    this.text('P', seller.name, { bold: true, width: half });
    this.text('P', joined([seller.address, taxNumber(seller.taxNumber)]), { size: small, width: half });
    const left = this.pdf.y;
    if (buyerName !== null || buyerAddress !== null) {
      this.pdf.y = top;
      const x = side + this.width / 2 + 4 * mm;
      this.text('P', buyerName ?? '', { bold: true, width: half, x });
      this.text('P', joined([buyerAddress, taxNumber(buyerTaxNumber)]), { size: small, width: half, x });
    }
    this.pdf.y = Math.max(left, this.pdf.y);
  }

  private facts(): string[] {
    const { document, timeZone, corrects } = this.printed;
    const { issuedAt, suppliedOn, validUntil, reason } = document;
    return [
      issuedAt === null
        ? 'A draft: not issued, and without a number.'
        : `Date ${localDay(new Date(issuedAt), timeZone)}`,
      `Day of supply ${suppliedOn}`,
      ...(validUntil === null ? [] : [`Valid until ${validUntil}`]),
      ...(corrects === null ? [] : [`Corrects receipt ${corrects}`]),
      ...(reason === null ? [] : [`Reason: ${reason}`]),
    ];
  }

  private lines(): void {
    const { document } = this.printed;
    const discounts = document.lines.some(({ takenOffMinor }) => takenOffMinor !== 0);
    const columns: Column[] = [
      { heading: 'Description', share: discounts ? 40 : 52, of: ({ description }) => description },
      { heading: 'Quantity', share: 11, of: ({ quantity }) => quantity },
      { heading: 'Price', share: 14, of: ({ unitPriceMinor }) => this.amount(unitPriceMinor) },
      ...(discounts
        ? [
            {
              heading: 'Discount',
              share: 12,
              of: ({ takenOffMinor }: LineResponse) => this.taken(takenOffMinor),
            },
          ]
        : []),
      { heading: 'Tax %', share: 9, of: ({ taxRatePercent }) => taxRatePercent },
      {
        heading: 'Amount',
        share: 14,
        of: ({ netMinor, grossMinor }) => this.amount(document.taxIncluded ? grossMinor : netMinor),
      },
    ];
    const table = this.pdf.struct('Table');
    this.root.add(table);
    const cells = (textOf: (column: Column) => string): Cell[] =>
      columns.map((column, index) => ({
        text: textOf(column),
        width: (this.width * column.share) / 100,
        align: index === 0 ? 'left' : 'right',
      }));
    const headings = cells(({ heading }) => heading);
    this.row(table, headings, { bold: true });
    for (const line of document.lines) {
      const row = cells(({ of }) => of(line));
      if (!this.fits(row)) {
        this.pdf.addPage();
        this.row(table, headings, { bold: true });
      }
      this.row(table, row);
    }
    table.end();
  }

  private sums(): void {
    const { document } = this.printed;
    const table = this.pdf.struct('Table');
    this.root.add(table);
    const sum = (label: string, amountMinor: number, bold = false): void => {
      const cells: Cell[] = [
        { text: label, width: this.width * 0.8, align: 'right' },
        { text: this.amount(amountMinor), width: this.width * 0.2, align: 'right' },
      ];
      this.row(table, cells, { bold, line: bold });
    };
    sum('Net', document.netMinor);
    for (const { taxRatePercent, netMinor, taxMinor } of document.taxes) {
      sum(`Tax ${taxRatePercent} % of ${this.amount(netMinor)}`, taxMinor);
    }
    sum(`Total ${document.currency}`, document.grossMinor, true);
    if (document.kind === 'receipt' && document.state !== 'draft') {
      if (document.creditedMinor !== 0) sum('Credited', -document.creditedMinor);
      if (document.paidMinor !== 0) sum('Paid', -document.paidMinor);
      sum(document.openMinor < 0 ? 'To be given back' : 'To be paid', Math.abs(document.openMinor), true);
    }
    table.end();
  }

  private taxNote(): string {
    const { taxIncluded, lines } = this.printed.document;
    const shared = lines.some(({ takenOffMinor }) => takenOffMinor !== 0)
      ? ' Discounts on the whole are shared among the lines.'
      : '';
    return `Prices ${taxIncluded ? 'hold' : 'are without'} tax.${shared}`;
  }

  private fits(cells: readonly Cell[]): boolean {
    const { pdf } = this;
    return pdf.y + this.heightOf(cells, false) + 3 * mm <= pdf.page.height - pdf.page.margins.bottom;
  }

  private heightOf(cells: readonly Cell[], bold: boolean): number {
    this.pdf.font(bold ? pdfFonts.bold : pdfFonts.plain).fontSize(normal);
    return Math.max(
      ...cells.map(({ text, width }) => this.pdf.heightOfString(text, { width: width - 2 * mm })),
    );
  }

  private row(
    table: PDFKit.PDFStructureElement,
    cells: readonly Cell[],
    { bold = false, line = true }: { bold?: boolean; line?: boolean } = {},
  ): void {
    const { pdf } = this;
    if (!this.fits(cells)) pdf.addPage();
    const height = this.heightOf(cells, bold);
    const top = pdf.y + 1 * mm;
    let x = side;
    const row = pdf.struct('TR');
    table.add(row);
    for (const { text, width, align } of cells) {
      const left = x;
      row.add(
        pdf.struct(bold ? 'TH' : 'TD', {}, () => {
          pdf
            .font(bold ? pdfFonts.bold : pdfFonts.plain)
            .fontSize(normal)
            .fillColor(ink)
            .text(text, left + (align === 'left' ? 0 : 2 * mm), top, { width: width - 2 * mm, align });
        }),
      );
      x += width;
    }
    row.end();
    pdf.x = side;
    pdf.y = top + height + 1 * mm;
    if (line) this.rule();
  }

  private rule(): void {
    const { pdf } = this;
    pdf.markContent('Artifact', { type: 'Layout' });
    pdf
      .moveTo(side, pdf.y)
      .lineTo(side + this.width, pdf.y)
      .lineWidth(0.4)
      .stroke('#888888');
    pdf.endMarkedContent();
  }

  private text(
    type: 'H1' | 'P',
    text: string,
    style: { bold?: boolean; size?: number; colour?: string; width?: number; x?: number } = {},
  ): void {
    const { bold = false, size = normal, colour = ink, width = this.width, x = side } = style;
    if (text === '') return;
    this.root.add(
      this.pdf.struct(type, {}, () => {
        this.pdf
          .font(bold ? pdfFonts.bold : pdfFonts.plain)
          .fontSize(size)
          .fillColor(colour)
          .text(text, x, undefined, { width, lineGap: 1.5 });
      }),
    );
  }

  /** With a true minus sign, which is as wide as a digit. */
  private amount(amountMinor: number): string {
    return decimalAmount(amountMinor, this.printed.document.currency).replace('-', '−');
  }

  private taken(amountMinor: number): string {
    return amountMinor === 0 ? '' : this.amount(-amountMinor);
  }

  private footPages(): void {
    const { pdf } = this;
    const { document } = this.printed;
    const { start, count } = pdf.bufferedPageRange();
    for (let page = start; page < start + count; page += 1) {
      pdf.switchToPage(page);
      pdf.page.margins.bottom = 0;
      pdf.markContent('Artifact', { type: 'Pagination' });
      pdf
        .font(pdfFonts.plain)
        .fontSize(small)
        .fillColor(grey)
        .text(
          `${titles[document.kind]} ${document.number ?? 'draft'} – page ${page + 1} of ${count}`,
          side,
          pdf.page.height - 12 * mm,
          { width: this.width, align: 'right', lineBreak: false },
        );
      pdf.endMarkedContent();
    }
  }
}

const joined = (parts: readonly (string | null)[]): string =>
  parts.filter((part) => part !== null && part !== '').join('\n');
