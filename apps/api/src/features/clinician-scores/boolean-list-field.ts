import { applyDecorators } from '@nestjs/common';
import { ApiProperty } from '@nestjs/swagger';
import { ArrayMaxSize, ArrayMinSize, IsArray, IsBoolean } from 'class-validator';

/** So many answers of yes or no, in a fixed order. */
export const BooleanListField = (options: {
  length: number;
  description: string;
  example: boolean[];
}): PropertyDecorator => {
  const { length, ...described } = options;
  return applyDecorators(
    ApiProperty({ ...described, type: [Boolean], minItems: length, maxItems: length }),
    IsBoolean({ each: true }),
    ArrayMaxSize(length),
    ArrayMinSize(length),
    IsArray(),
  );
};
