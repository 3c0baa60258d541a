import { Injectable, type CanActivate, type ExecutionContext } from '@nestjs/common';
import { TenantTransaction } from '@studio/database';
import { isUUID } from 'class-validator';
import type { FastifyRequest } from 'fastify';
import { ApiError } from './problem.js';
import { ReadLog } from './read-log.js';
import { askedOf, setAsked } from './request-context.js';
import { findRestriction, recordIdNames, type RecordIdName } from './restricted-records.queries.js';

export class RecordRestricted extends ApiError {
  readonly code = 'access.record-restricted';
  readonly status = 403;
  readonly title = 'The person had this record restricted; open it with a reason to read it';
}

/**
 * Withholds health data of whoever had their record restricted, from everybody who has not opened it with a reason; and
 * from all, when reads cannot be written down.
 */
@Injectable()
export class RestrictedRecordsGuard implements CanActivate {
  constructor(
    private readonly log: ReadLog,
    private readonly transaction: TenantTransaction,
  ) {}

  async canActivate(host: ExecutionContext): Promise<boolean> {
    const request = host.switchToHttp().getRequest<FastifyRequest>();
    const asked = askedOf(request);
    const ctx = asked?.ctx;
    if (!ctx || asked.route.permission.health !== true) return true;
    this.log.requireRoom();
    const named = recordNamed(request);
    if (!named) return true;
    const { studioId } = ctx;
    const of = { studioId, userId: ctx.userId as string, ...named };
    const restriction = await this.transaction.read(ctx, (sql) => findRestriction(sql, of));
    if (restriction === null) return true;
    if (!restriction.opened) throw new RecordRestricted();
    setAsked(request, { ...asked, opened: true });
    return true;
  }
}

/** The record of the address, or the client a list is of. What is no id is refused later, by the route itself. */
function recordNamed({ params, query }: FastifyRequest): { idName: RecordIdName; id: string } | undefined {
  return [params, query]
    .flatMap((given) =>
      recordIdNames.map((idName) => ({ idName, id: (given as Record<string, unknown>)[idName] })),
    )
    .find((named): named is { idName: RecordIdName; id: string } => isUUID(named.id));
}
