import { pdfFonts } from '@studio/documents';
import type { Block, Letter } from './letter.js';

const { plain: regular, bold } = pdfFonts;

const mm = 72 / 25.4;
const sides = 22 * mm;
const small = 8;
const normal = 10;

interface Style {
  readonly font?: string;
  readonly size?: number;
  readonly indent?: number;
}

/** The letter on A4: selectable text, tagged, with its language and title set. */
export async function letterPdf(letter: Letter): Promise<Buffer> {
  const { default: PDFDocument } = await import('pdfkit');
  const document = new PDFDocument({
    size: 'A4',
    margins: { top: 20 * mm, bottom: 20 * mm, left: sides, right: sides },
    pdfVersion: '1.7',
    tagged: true,
    lang: letter.language,
    displayTitle: true,
    bufferPages: true,
    info: { Title: letter.title, Author: letter.from },
  });
  const chunks: Buffer[] = [];
  document.on('data', (chunk: Buffer) => chunks.push(chunk));
  const done = new Promise<Buffer>((finished, failed) => {
    document.on('error', failed);
    document.on('end', () => {
      finished(Buffer.concat(chunks));
    });
  });
  new Writer(document).write(letter);
  document.end();
  return done;
}

/** Sets every piece of text as an element of its kind, so that a screen reader reads headings, lists and paragraphs. */
class Writer {
  private readonly root: PDFKit.PDFStructureElement;
  private readonly width: number;

  constructor(private readonly pdf: PDFKit.PDFDocument) {
    this.root = pdf.struct('Document');
    pdf.addStructure(this.root);
    this.width = pdf.page.width - 2 * sides;
  }

  write(letter: Letter): void {
    const { pdf } = this;
    this.text('P', `${letter.from}\n${letter.date}\nReference ${letter.reference}`, { size: small });
    pdf.moveDown(1.5);
    this.text('H1', letter.title, { font: bold, size: 15 });
    for (const { heading, blocks } of letter.sections) {
      pdf.moveDown(0.9);
      this.keepTogether(60);
      this.text('H2', heading, { font: bold, size: 11 });
      for (const block of blocks) {
        pdf.moveDown(0.4);
        this.block(block);
      }
    }
    this.root.end();
    this.numberPages();
  }

  private block(block: Block): void {
    switch (block.kind) {
      case 'paragraph':
        this.text('P', block.text);
        break;
      case 'list':
        this.list(block.items);
        break;
      case 'facts':
        for (const { question, answer } of block.facts) {
          this.keepTogether(40);
          this.text('P', question);
          this.text('P', answer, { font: bold, indent: 4 * mm });
          this.pdf.moveDown(0.3);
        }
        break;
      case 'form':
        this.keepTogether(block.lines.length * 9 * mm);
        for (const line of block.lines) this.formLine(line);
        break;
    }
  }

  private formLine(label: string): void {
    const { pdf } = this;
    pdf.y += 4 * mm;
    const baseline = pdf.y + normal;
    this.text('P', label);
    pdf.markContent('Artifact', { type: 'Layout' });
    pdf
      .moveTo(sides + 45 * mm, baseline)
      .lineTo(sides + this.width, baseline)
      .lineWidth(0.5)
      .stroke('#444444');
    pdf.endMarkedContent();
  }

  private list(items: readonly string[]): void {
    const { pdf } = this;
    const list = pdf.struct('L');
    this.root.add(list);
    for (const item of items) {
      this.keepTogether(2 * normal);
      const top = pdf.y;
      const label = pdf.struct('Lbl', {}, () => {
        this.put('•', { indent: 2 * mm });
      });
      const body = pdf.struct('LBody', {}, () => {
        pdf.y = top;
        this.put(item, { indent: 6 * mm });
      });
      list.add(pdf.struct('LI', {}, [label, body]));
    }
    list.end();
  }

  private text(type: 'H1' | 'H2' | 'P', text: string, style: Style = {}): void {
    this.root.add(
      this.pdf.struct(type, {}, () => {
        this.put(text, style);
      }),
    );
  }

  private put(text: string, { font = regular, size = normal, indent = 0 }: Style): void {
    this.pdf
      .font(font)
      .fontSize(size)
      .fillColor('#111111')
      .text(text, sides + indent, undefined, { width: this.width - indent, lineGap: 2 });
  }

  /** Begin a new page rather than part what belongs together. */
  private keepTogether(height: number): void {
    const { pdf } = this;
    if (pdf.y + height > pdf.page.height - pdf.page.margins.bottom) pdf.addPage();
  }

  private numberPages(): void {
    const { pdf } = this;
    const { start, count } = pdf.bufferedPageRange();
    for (let page = start; page < start + count; page += 1) {
      pdf.switchToPage(page);
      pdf.page.margins.bottom = 0;
      pdf.markContent('Artifact', { type: 'Pagination' });
      pdf
        .font(regular)
        .fontSize(small)
        .fillColor('#444444')
        .text(`Page ${page + 1} of ${count}`, sides, pdf.page.height - 12 * mm, {
          width: this.width,
          align: 'right',
          lineBreak: false,
        });
      pdf.endMarkedContent();
    }
  }
}
