import { Injectable, type ExecutionContext, type OnApplicationBootstrap, type Type } from '@nestjs/common';
import { PATH_METADATA } from '@nestjs/common/constants.js';
import { DiscoveryService, MetadataScanner, Reflector } from '@nestjs/core';
import { permissionOf, permissions, type OperationId } from '../permissions/permission-table.js';
import type { Permission } from '../permissions/permission.js';
import { operationKey } from './documentation.js';

/** The API does not start: a route names no row of the table of permissions, or a row has no route. */
export class PermissionsIncomplete extends Error {
  constructor(silent: readonly string[], unused: readonly string[]) {
    super(
      [
        ...silent.map((route) => `${route} names no row of the table of permissions`),
        ...unused.map((id) => `no route is called ${id}, as a row of the table of permissions is`),
      ].join('; '),
    );
  }
}

/** The operation a route is, by its own word or its class's. */
export const operationOf = (reflector: Reflector, host: ExecutionContext): OperationId | undefined =>
  reflector.getAllAndOverride<OperationId | undefined>(operationKey, [host.getHandler(), host.getClass()]);

/** Nobody may use what is not in the table, were it ever reached. */
const nobody: Permission = { who: [] };

export function permissionOfRoute(reflector: Reflector, host: ExecutionContext): Permission {
  const id = operationOf(reflector, host);
  return id === undefined ? nobody : permissionOf(id);
}

/** Compares the routes with the table before anything is served. */
@Injectable()
export class Routes implements OnApplicationBootstrap {
  constructor(
    private readonly discovery: DiscoveryService,
    private readonly scanner: MetadataScanner,
  ) {}

  onApplicationBootstrap(): void {
    const controllers = this.discovery.getControllers().map(({ metatype }) => metatype as Type<object>);
    requireComplete(controllers, Object.keys(permissions), this.scanner);
  }
}

/** @throws PermissionsIncomplete naming every route and every row that has no counterpart */
export function requireComplete(
  controllers: readonly Type<object>[],
  rows: readonly string[],
  scanner = new MetadataScanner(),
): void {
  const silent: string[] = [];
  const named = new Set<string>();
  for (const controller of controllers) {
    const prototype = controller.prototype as Record<string, object>;
    for (const name of scanner.getAllMethodNames(prototype)) {
      const handler = prototype[name] as object;
      if (!Reflect.hasMetadata(PATH_METADATA, handler)) continue;
      const id = (Reflect.getMetadata(operationKey, handler) ??
        Reflect.getMetadata(operationKey, controller)) as string | undefined;
      if (id === undefined || !rows.includes(id)) silent.push(`${controller.name}.${name}`);
      else named.add(id);
    }
  }
  const unused = rows.filter((id) => !named.has(id));
  if (silent.length > 0 || unused.length > 0) throw new PermissionsIncomplete(silent, unused);
}
