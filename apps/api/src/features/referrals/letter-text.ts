import type { Block, Letter } from './letter.js';

/** The letter as plain text. */
export function letterText({ title, from, date, reference, sections }: Letter): string {
  const parts = sections.map(({ heading, blocks }) => [heading, ...blocks.map(blockText)].join('\n\n'));
  return [`${from}\n${date}\nReference ${reference}`, title, ...parts].join('\n\n') + '\n';
}

function blockText(block: Block): string {
  switch (block.kind) {
    case 'paragraph':
      return block.text;
    case 'list':
      return block.items.map((item) => `- ${item}`).join('\n');
    case 'facts':
      return block.facts.map(({ question, answer }) => `${question}\n  ${answer}`).join('\n');
    case 'form':
      return block.lines.map((line) => `${line}: ${'_'.repeat(40)}`).join('\n');
  }
}
