import { pdfFonts } from '@studio/documents';
import type { Block, Sheet } from '@studio/fit-sheet';
import PDFDocument from 'pdfkit';
import { buffer } from 'node:stream/consumers';
import svgToPdf from 'svg-to-pdfkit';

const mm = 72 / 25.4;
const margins = { top: 18 * mm, bottom: 18 * mm, left: 18 * mm, right: 18 * mm };
const ink = '#17222d';
const grey = '#4d5a65';
const rule = '#bcc6cd';
const textSize = 9.5;

/** The sheet on paper: text that can be selected, everything tagged by what it is, language and title set. */
export async function fitSheetPdf(sheet: Sheet, paper: 'a4' | 'letter'): Promise<Buffer> {
  const pdf = new PDFDocument({
    size: paper === 'a4' ? 'A4' : 'LETTER',
    margins,
    pdfVersion: '1.7',
    tagged: true,
    lang: sheet.language,
    displayTitle: true,
    bufferPages: true,
    info: { Title: `${sheet.title}: ${sheet.about[0] ?? ''}`, Author: sheet.from },
  });
  pdf.registerFont('plain', pdfFonts.plain);
  pdf.registerFont('bold', pdfFonts.bold);
  const whole = buffer(pdf);
  new SheetWriter(pdf).write(sheet);
  pdf.end();
  return whole;
}

class SheetWriter {
  private readonly root: PDFKit.PDFStructureElement;
  private readonly width: number;

  constructor(private readonly pdf: PDFKit.PDFDocument) {
    this.root = pdf.struct('Document');
    pdf.addStructure(this.root);
    this.width = pdf.page.width - margins.left - margins.right;
  }

  write({ title, from, about, sections, labels }: Sheet): void {
    const { pdf } = this;
    this.text('P', from, { colour: grey });
    this.text('H1', title, { font: 'bold', size: 18 });
    pdf.moveDown(0.2);
    for (const line of about) this.text('P', line, { colour: grey });
    for (const { heading, blocks } of sections) {
      pdf.moveDown(1);
      this.keepTogether(60 + (blocks[0] ? this.heightOf(blocks[0]) : 0));
      this.text('H2', heading, { font: 'bold', size: 12 });
      pdf.moveDown(0.3);
      for (const block of blocks) this.block(block);
    }
    this.root.end();
    this.numberPages(labels.pageOf);
  }

  private block(block: Block): void {
    switch (block.kind) {
      case 'paragraph':
        this.keepTogether(this.heightOf(block));
        this.text('P', block.text);
        this.pdf.moveDown(0.4);
        break;
      case 'list':
        this.list(block.items);
        break;
      case 'table':
        this.table(block);
        break;
      case 'figure':
        this.figure(block.drawing);
        break;
    }
  }

  /** What of a block must not be parted from the heading above it. */
  private heightOf(block: Block): number {
    switch (block.kind) {
      case 'figure':
        return this.figureSize(block.drawing).height;
      case 'paragraph':
        return this.pdf.font('plain').fontSize(textSize).heightOfString(block.text, { width: this.width });
      case 'list':
      case 'table':
        return 40;
    }
  }

  private list(items: readonly string[]): void {
    const { pdf } = this;
    const list = pdf.struct('L');
    this.root.add(list);
    for (const item of items) {
      this.keepTogether(
        pdf
          .font('plain')
          .fontSize(textSize)
          .heightOfString(item, { width: this.width - 14 }),
      );
      const top = pdf.y;
      const label = pdf.struct('Lbl', {}, () => {
        this.put('•', { indent: 4 });
      });
      const body = pdf.struct('LBody', {}, () => {
        pdf.y = top;
        this.put(item, { indent: 14 });
      });
      list.add(pdf.struct('LI', {}, [label, body]));
      pdf.moveDown(0.2);
    }
    list.end();
    pdf.moveDown(0.3);
  }

  private table({ columns, rows }: Extract<Block, { kind: 'table' }>): void {
    const table = this.pdf.struct('Table');
    this.root.add(table);
    this.row(table, columns, { font: 'bold', cell: 'TH' });
    for (const row of rows) this.row(table, row, { font: 'plain', cell: 'TD' });
    table.end();
    this.pdf.moveDown(0.5);
  }

  private row(
    table: PDFKit.PDFStructureElement,
    cells: readonly string[],
    { font, cell }: { font: 'plain' | 'bold'; cell: 'TH' | 'TD' },
  ): void {
    const { pdf } = this;
    const first = 0.4 * this.width;
    const other = (this.width - first) / (cells.length - 1);
    const left = (index: number): number => margins.left + (index === 0 ? 0 : first + (index - 1) * other);
    const widthOf = (index: number): number => (index === 0 ? first : other) - 6;
    pdf.font(font).fontSize(textSize);
    const height = Math.max(...cells.map((words, i) => pdf.heightOfString(words, { width: widthOf(i) })));
    this.keepTogether(height + 6);
    const top = pdf.y;
    const row = pdf.struct('TR');
    table.add(row);
    cells.forEach((words, index) => {
      row.add(
        pdf.struct(index === 0 ? 'TH' : cell, {}, () => {
          pdf
            .font(font)
            .fontSize(textSize)
            .fillColor(ink)
            .text(words, left(index), top, { width: widthOf(index) });
        }),
      );
    });
    row.end();
    this.artifact('Layout', () => {
      const y = top + height + 2;
      pdf
        .moveTo(margins.left, y)
        .lineTo(margins.left + this.width, y)
        .lineWidth(0.4)
        .stroke(rule);
    });
    pdf.x = margins.left;
    pdf.y = top + height + 5;
  }

  private figure(drawing: Extract<Block, { kind: 'figure' }>['drawing']): void {
    const { pdf } = this;
    const { width, height } = this.figureSize(drawing);
    this.keepTogether(height);
    const { y } = pdf;
    // Without a size of its own it takes the one given here.
    const scalable = drawing.svg.replace(/ width="\d+" height="\d+"/, '');
    const draw = (): void => {
      svgToPdf(pdf, scalable, margins.left + (this.width - width) / 2, y, {
        ...{ width, height, assumePt: true },
        fontCallback: (_family: string, bold: boolean) => (bold ? 'bold' : 'plain'),
      });
    };
    this.root.add(pdf.struct('Figure', { title: drawing.title, alt: drawing.description }, draw));
    pdf.x = margins.left;
    pdf.y = y + height + 10;
  }

  /** As wide as the paper, unless it would then be higher than half of it. */
  private figureSize({ widthPx, heightPx }: { widthPx: number; heightPx: number }): {
    width: number;
    height: number;
  } {
    const highest = (this.pdf.page.height - margins.top - margins.bottom) / 2 - 24;
    const scale = Math.min(this.width / widthPx, highest / heightPx);
    return { width: widthPx * scale, height: heightPx * scale };
  }

  private text(type: 'H1' | 'H2' | 'P', words: string, style: Style = {}): void {
    this.root.add(
      this.pdf.struct(type, {}, () => {
        this.put(words, style);
      }),
    );
  }

  private put(words: string, { font = 'plain', size = textSize, colour = ink, indent = 0 }: Style): void {
    this.pdf
      .font(font)
      .fontSize(size)
      .fillColor(colour)
      .text(words, margins.left + indent, undefined, { width: this.width - indent, lineGap: 1.5 });
  }

  /** Begin a new page rather than part what belongs together. */
  private keepTogether(height: number): void {
    const { pdf } = this;
    if (pdf.y + height > pdf.page.height - margins.bottom) pdf.addPage();
  }

  private artifact(type: 'Layout' | 'Pagination', draw: () => void): void {
    this.pdf.markContent('Artifact', { type });
    draw();
    this.pdf.endMarkedContent();
  }

  private numberPages(pageOf: string): void {
    const { pdf } = this;
    const { start, count } = pdf.bufferedPageRange();
    for (let page = start; page < start + count; page += 1) {
      pdf.switchToPage(page);
      pdf.page.margins.bottom = 0;
      this.artifact('Pagination', () => {
        pdf
          .font('plain')
          .fontSize(8)
          .fillColor(grey)
          .text(
            pageOf.replace('{page}', String(page + 1)).replace('{count}', String(count)),
            margins.left,
            pdf.page.height - 12 * mm,
            {
              ...{ width: this.width, align: 'right', lineBreak: false },
            },
          );
      });
    }
  }
}

interface Style {
  readonly font?: 'plain' | 'bold';
  readonly size?: number;
  readonly colour?: string;
  readonly indent?: number;
}
