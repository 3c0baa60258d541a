import { pdfFonts } from '@studio/documents';

export const margin = 50;
export const ink = '#17222d';
export const grey = '#55636f';

export type Document = PDFKit.PDFDocument;

/** A4, text that can be selected, tagged; in our two fonts, `plain` and `bold`. */
export async function newDocument(title: string, about: { studio: string; madeAt: Date }): Promise<Document> {
  // Not before: it is one of the packages that take longest to load, and the API is to start quickly.
  const { default: PDFDocument } = await import('pdfkit');
  const document = new PDFDocument({
    size: 'A4',
    margin,
    bufferPages: true,
    tagged: true,
    lang: 'en',
    displayTitle: true,
    pdfVersion: '1.7',
    info: { Title: title, Author: about.studio, CreationDate: about.madeAt },
  });
  document.registerFont('plain', pdfFonts.plain);
  document.registerFont('bold', pdfFonts.bold);
  return document;
}

export function heading(document: Document, words: string): void {
  document.moveDown(0.8);
  tagged(document, 'H2', () => document.font('bold').fontSize(12).fillColor(ink).text(words, margin));
  document.moveDown(0.3);
}

export function paragraph(document: Document, words: string, colour = ink): void {
  tagged(document, 'P', () =>
    document.font('plain').fontSize(9).fillColor(colour).text(words, margin, document.y, { paragraphGap: 3 }),
  );
}

export function tagged(document: Document, type: string, write: () => unknown): void {
  document.addStructure(
    document.struct(type, {}, () => {
      write();
    }),
  );
}

export function numberPages(document: Document): void {
  const { start, count } = document.bufferedPageRange();
  for (let page = start; page < start + count; page += 1) {
    document.switchToPage(page);
    document.markContent('Artifact', { type: 'Pagination' });
    document
      .font('plain')
      .fontSize(8)
      .fillColor(grey)
      .text(`${page + 1} of ${count}`, margin, document.page.height - margin + 12, {
        align: 'center',
        lineBreak: false,
        width: document.page.width - 2 * margin,
        height: 12,
      });
    document.endMarkedContent();
  }
}

export function collected(document: Document): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    const chunks: Buffer[] = [];
    document.on('data', (chunk: Buffer) => chunks.push(chunk));
    document.on('end', () => {
      resolve(Buffer.concat(chunks));
    });
    document.on('error', reject);
    document.end();
  });
}
