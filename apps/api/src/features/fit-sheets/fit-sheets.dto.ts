import { ApiProperty } from '@nestjs/swagger';
import type { FitSheetState } from '@studio/database';
import { sheetLanguages, type SheetLanguage } from '@studio/fit-sheet';
import { BooleanField, EnumField } from '../../http/fields.js';

export const audiences = ['rider', 'studio'] as const;
export const papers = ['a4', 'letter'] as const;
export const lengths = ['mm', 'mm_and_inch'] as const;

export class OrderFitSheetRequest {
  @EnumField(audiences, {
    description:
      'For the rider; or for the studio’s file, with what was measured, computed and signed besides.',
  })
  audience: (typeof audiences)[number];

  @EnumField(papers, { optional: true, description: 'A4 when absent.' })
  paper?: (typeof papers)[number];

  @EnumField(lengths, { optional: true, description: 'Millimetres alone when absent.' })
  lengths?: (typeof lengths)[number];

  @BooleanField({
    optional: true,
    description:
      'Mail the rider a link to it once it is ready; it holds 30 days. For the rider’s own sheet only.',
    example: true,
  })
  tellRider?: boolean;

  @EnumField(sheetLanguages, {
    optional: true,
    description: "When absent: the rider's, or else the studio's.",
    example: 'de',
  })
  language?: SheetLanguage;
}

export class SheetDocumentResponse {
  @ApiProperty({ example: 'sheet.pdf', description: 'The PDF, the page, or a drawing.' })
  name: string;

  @ApiProperty({ enum: ['application/pdf', 'text/html', 'image/svg+xml'] })
  mediaType: string;

  @ApiProperty({
    example:
      'https://studio.example/v1/stored-objects?key=…&type=application%2Fpdf&name=…&expires=…&signature=…',
    description: 'Open to whoever holds it, for five minutes.',
  })
  url: string;
}

export class FitSheetResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  fitSessionId: string;

  @ApiProperty({ enum: audiences })
  audience: (typeof audiences)[number];

  @ApiProperty({ enum: papers })
  paper: (typeof papers)[number];

  @ApiProperty({ enum: lengths })
  lengths: (typeof lengths)[number];

  @ApiProperty({ description: 'Whether the rider is told by mail once it is ready.', example: true })
  tellRider: boolean;

  @ApiProperty({
    type: String,
    enum: [...sheetLanguages, null],
    nullable: true,
    description: "Null: the rider's, or else the studio's.",
  })
  language: SheetLanguage | null;

  @ApiProperty({
    enum: ['ordered', 'ready', 'failed'],
    description: 'Read it again until it is not `ordered` any more.',
  })
  state: FitSheetState;

  @ApiProperty({ format: 'date-time' })
  orderedAt: string;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  finishedAt: string | null;

  @ApiProperty({ type: [SheetDocumentResponse], description: 'Empty unless `ready`.' })
  documents: SheetDocumentResponse[];
}

export class FitSheetPage {
  @ApiProperty({ type: [FitSheetResponse] })
  items: FitSheetResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}
