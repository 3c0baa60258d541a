import { ApiProperty } from '@nestjs/swagger';
import type { Drawing } from '@studio/drawings';

const cell = { oneOf: [{ type: 'string' }, { type: 'number' }], nullable: true };

export class DrawingResponse {
  @ApiProperty({ example: 'slopes_pain' })
  name: string;

  @ApiProperty({ example: 'Pain on the bike, before and after' })
  title: string;

  @ApiProperty({ example: 'riders with the cleat at midfoot' })
  subtitle: string;

  @ApiProperty({
    example: '14 people before and after (of 10). Mean 6 before, 2.8 after (−3.2).',
    description: 'The text alternative: what it shows, in words.',
  })
  description: string;

  @ApiProperty({
    example: '<svg xmlns="http://www.w3.org/2000/svg" role="img"></svg>',
    description: 'A whole SVG document.',
  })
  svg: string;

  @ApiProperty({ example: 600 })
  widthPx: number;

  @ApiProperty({ example: 420 })
  heightPx: number;

  @ApiProperty({
    example: ['before', 'after', 'verdict'],
    type: [String],
    description: 'Of the numbers it was made from.',
  })
  columns: readonly string[];

  @ApiProperty({ example: [[6, 2, 'better']], type: 'array', items: { type: 'array', items: cell } })
  rows: readonly (readonly (string | number | null)[])[];

  static of(name: string, { data, ...drawing }: Drawing): DrawingResponse {
    return { name, ...drawing, columns: data.columns, rows: data.rows };
  }
}
