import { applyDecorators, SetMetadata } from '@nestjs/common';
import { ApiBearerAuth } from '@nestjs/swagger';
import type { Role } from '@studio/database';
import { Problems } from './documentation.js';

export const accessKey = 'access';

/** Who may use a route: some roles, or anyone. A route that says nothing is refused to everyone. */
export type Access = readonly Role[] | 'anyone';

export const Allow = (...roles: [Role, ...Role[]]): MethodDecorator & ClassDecorator =>
  applyDecorators(SetMetadata(accessKey, roles satisfies Access), ApiBearerAuth(), Problems(401, 403));

export const AllowStaff = (): MethodDecorator & ClassDecorator => Allow('owner', 'fitter', 'front_desk');

export const inPersonKey = 'in-person';

/** Only the person, not a program with the person's key: what gives or takes away ways in. */
export const InPerson = (): MethodDecorator & ClassDecorator => SetMetadata(inPersonKey, true);

export const Open = (): MethodDecorator & ClassDecorator => SetMetadata(accessKey, 'anyone' satisfies Access);
