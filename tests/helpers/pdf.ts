import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

/** The text of a PDF as poppler reads it, words parted by single spaces; null without poppler. */
export async function pdfText(url: string): Promise<string | null> {
  const folder = mkdtempSync(path.join(tmpdir(), 'pdf-'));
  try {
    const file = path.join(folder, 'read.pdf');
    writeFileSync(file, Buffer.from(await (await fetch(url)).arrayBuffer()));
    return execFileSync('pdftotext', ['-raw', file, '-'], { encoding: 'utf8' }).replace(/\s+/g, ' ');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  } finally {
    rmSync(folder, { recursive: true });
  }
}
