import { Injectable, RequestMethod, type OnApplicationBootstrap, type Type } from '@nestjs/common';
import { METHOD_METADATA, PATH_METADATA } from '@nestjs/common/constants.js';
import { DiscoveryService, MetadataScanner, Reflector } from '@nestjs/core';
import { accessKey, inPersonKey, type Access } from './access.js';
import { operationKey } from './documentation.js';
import { healthDataKey } from './read-log.js';

/** One route as its decorators declare it. */
export interface RouteAccess {
  /** The operation's id; of a page, which is none, the names of its class and method. */
  readonly operation: string;
  readonly method: string;
  readonly access: Access;
  /** Not for a program with a person's key. */
  readonly inPersonOnly: boolean;
  /** Reads of it are written down. */
  readonly readsHealthData: boolean;
}

/** A route of which nobody said who may use it: the API does not start with one. */
export class AccessNotDeclared extends Error {
  constructor(routes: readonly string[]) {
    super(`who may use these routes is not declared: ${routes.join(', ')}`);
  }
}

/** Who may do what, collected from the routes themselves. */
@Injectable()
export class AccessTable implements OnApplicationBootstrap {
  constructor(
    private readonly discovery: DiscoveryService,
    private readonly scanner: MetadataScanner,
    private readonly reflector: Reflector,
  ) {}

  onApplicationBootstrap(): void {
    this.rows();
  }

  /** @throws AccessNotDeclared */
  rows(): RouteAccess[] {
    const controllers = this.discovery.getControllers().map(({ metatype }) => metatype as Type);
    return rowsOf(controllers, this.scanner, this.reflector);
  }
}

/** @throws AccessNotDeclared naming every route that says nothing */
export function rowsOf(
  controllers: readonly Type[],
  scanner = new MetadataScanner(),
  reflector = new Reflector(),
): RouteAccess[] {
  const silent: string[] = [];
  const rows = controllers.flatMap((controller) => {
    const methods = controller.prototype as Record<string, (...values: never[]) => unknown>;
    return scanner.getAllMethodNames(controller.prototype as object).flatMap((name): RouteAccess[] => {
      const handler = methods[name];
      if (!handler || Reflect.getMetadata(PATH_METADATA, handler) === undefined) return [];
      const own = <Value>(key: string): Value | undefined =>
        reflector.getAllAndOverride<Value | undefined>(key, [handler, controller]);
      const access = own<Access>(accessKey);
      const operation = own<string>(operationKey) ?? `${controller.name}.${name}`;
      if (access === undefined) {
        silent.push(operation);
        return [];
      }
      const method = RequestMethod[Reflect.getMetadata(METHOD_METADATA, handler) as RequestMethod];
      const inPersonOnly = own<boolean>(inPersonKey) === true;
      const readsHealthData = own<boolean>(healthDataKey) === true && method === 'GET';
      return [{ operation, method, access, inPersonOnly, readsHealthData }];
    });
  });
  if (silent.length > 0) throw new AccessNotDeclared(silent);
  return rows;
}
