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

  @ApiProperty({ description: 'The text alternative: what it shows, in words.' })
  description: string;

  @ApiProperty({ description: 'A whole SVG document.' })
  svg: string;

  @ApiProperty({ example: 600 })
  widthPx: number;

  @ApiProperty({ example: 420 })
  heightPx: number;

  @ApiProperty({ type: [String], description: 'Of the numbers it was made from.' })
  columns: readonly string[];

  @ApiProperty({ type: 'array', items: { type: 'array', items: cell } })
  rows: readonly (readonly (string | number | null)[])[];

  static of(name: string, { data, ...drawing }: Drawing): DrawingResponse {
    return { name, ...drawing, columns: data.columns, rows: data.rows };
  }
}
