import type { Drawing } from '@studio/drawings';
import type { SheetLanguage } from './words/index.js';

/** What a document says, piece by piece, whatever it is rendered as: the page and the PDF say the same. */
export interface Sheet {
  readonly language: SheetLanguage;
  readonly title: string;
  readonly from: string;
  /** Whom and what it is about; one line each, below the title. */
  readonly about: readonly string[];
  readonly sections: readonly Section[];
  /** Of what is not in the sheet but around it: `Page {page} of {count}`, what a table is called. */
  readonly labels: { readonly pageOf: string; readonly table: string };
}

export interface Section {
  readonly heading: string;
  readonly blocks: readonly Block[];
}

export type Block =
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | {
      readonly kind: 'table';
      readonly columns: readonly string[];
      readonly rows: readonly (readonly string[])[];
    }
  | { readonly kind: 'figure'; readonly name: FigureName; readonly drawing: Drawing };

export const figureNames = ['side-view', 'feet', 'knee'] as const;
export type FigureName = (typeof figureNames)[number];

/** The drawings of a sheet, in order. */
export const figuresOf = ({ sections }: Sheet): { name: FigureName; drawing: Drawing }[] =>
  sections.flatMap(({ blocks }) =>
    blocks.flatMap((block) =>
      block.kind === 'figure' ? [{ name: block.name, drawing: block.drawing }] : [],
    ),
  );
