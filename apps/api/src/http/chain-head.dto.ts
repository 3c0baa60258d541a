import { ApiProperty } from '@nestjs/swagger';

/** The newest link of a chain. Written down elsewhere, it tells of a chain that was cut short at its end. */
export class ChainHead {
  @ApiProperty({ type: 'integer', example: 42 })
  number: number;

  @ApiProperty({
    description: 'SHA-256, hexadecimal.',
    example: '9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08',
  })
  hash: string;
}
