import { ApiProperty, type ApiPropertyOptions } from '@nestjs/swagger';
import type { Mark } from '../permissions/permission-table.js';

export const markKey = 'x-mark';

/**
 * A field that is not shown to everybody who may use an operation: `shownTo` in the table of permissions says to whom. To
 * others it is null where it may be null, and left out elsewhere.
 */
export const Marked = (mark: Mark): PropertyDecorator =>
  ApiProperty({ [markKey]: mark } as ApiPropertyOptions);
