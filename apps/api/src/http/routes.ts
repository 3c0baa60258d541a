import { Injectable, type ExecutionContext, type OnApplicationBootstrap, type Type } from '@nestjs/common';
import { PATH_METADATA } from '@nestjs/common/constants.js';
import { DiscoveryService, MetadataScanner, Reflector } from '@nestjs/core';
import { permissionOf, permissions, type Mark, type OperationId } from '../permissions/permission-table.js';
import type { Permission } from '../permissions/permission.js';
import { answerKey, operationKey } from './documentation.js';
import { markedFieldsOf, marksOf, type MarkedFields } from './redaction.js';

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

/** What is known of a route before anybody asks for it. */
export interface Route {
  /** By its own word or its class's. */
  readonly operation: OperationId | undefined;
  readonly permission: Permission;
  readonly marked: MarkedFields;
  /** Each mark there is among them. */
  readonly marks: readonly Mark[];
}

/** Nobody may use what is not in the table, were it ever reached. */
const nobody: Permission = { who: [] };

const routes = new WeakMap<object, Route>();

/** Worked out once. */
export function routeOf(reflector: Reflector, host: ExecutionContext): Route {
  const handler = host.getHandler();
  let route = routes.get(handler);
  if (!route) {
    const places = [handler, host.getClass()];
    const operation = reflector.getAllAndOverride<OperationId | undefined>(operationKey, places);
    const answer = reflector.get<Type<object> | undefined>(answerKey, handler);
    const marked: MarkedFields = answer ? markedFieldsOf(answer) : new Map();
    const permission = operation === undefined ? nobody : permissionOf(operation);
    route = { operation, permission, marked, marks: marksOf(marked) };
    routes.set(handler, route);
  }
  return route;
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
