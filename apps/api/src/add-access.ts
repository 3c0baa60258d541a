import type { INestApplication, Type } from '@nestjs/common';
import { ModulesContainer } from '@nestjs/core';
import type { OpenAPIObject } from '@nestjs/swagger';
import { rowsOf } from './http/access-table.js';

/** Writes into the document who may use each operation, as `x-access`: its roles, or `anyone`. */
export function addAccess(document: OpenAPIObject, app: INestApplication): void {
  // Not asked of the table itself: the document is also written without any provider being made.
  const controllers = [...app.get(ModulesContainer).values()].flatMap((module) =>
    [...module.controllers.values()].map(({ metatype }) => metatype as Type),
  );
  const byId = new Map(rowsOf(controllers).map((row) => [row.operation, row]));
  for (const item of Object.values(document.paths)) {
    for (const operation of [item.get, item.post, item.put, item.patch, item.delete]) {
      const row = byId.get(operation?.operationId ?? '');
      if (!operation || !row) continue;
      const { access: roles, inPersonOnly, readsHealthData } = row;
      Object.assign(operation, { 'x-access': { roles, inPersonOnly, readsHealthData } });
    }
  }
}
