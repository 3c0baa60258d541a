import { Global, Module, type DynamicModule, type OnApplicationShutdown } from '@nestjs/common';
import { APP_FILTER, APP_GUARD, APP_INTERCEPTOR, APP_PIPE } from '@nestjs/core';
import type { ApiConfig } from '@studio/config';
import { createDataSource, StudioKeys, TenantReads, TenantTransaction } from '@studio/database';
import { createStorage, SignedAddresses } from '@studio/storage';
import { stopTracing } from '@studio/tracing';
import { DataSource } from 'typeorm';
import { AccessGuard } from './access.guard.js';
import { ApiKeys } from './api-keys.js';
import { AccessTokens } from './access-tokens.js';
import { ETagInterceptor } from './preconditions.js';
import { ReadLog, ReadLogInterceptor } from './read-log.js';
import { ProblemFilter } from './problem.filter.js';
import { validationPipe } from './validation.pipe.js';

export const ApiConfigToken = Symbol('ApiConfig');
export const StorageToken = Symbol('ObjectStorage');

/**
 * Nobody waits longer for an answer, or behind somebody who holds a lock; a transaction whose request was forgotten lets go
 * of its locks.
 */
const limits = '-c statement_timeout=60s -c lock_timeout=20s -c idle_in_transaction_session_timeout=60s';

/** What every feature stands on: configuration, database, access, validation, problem documents. */
@Global()
@Module({})
export class HttpModule implements OnApplicationShutdown {
  constructor(
    private readonly dataSource: DataSource,
    private readonly reads: TenantReads,
  ) {}

  static with(config: ApiConfig): DynamicModule {
    const pool = {
      ...{ url: config.databaseUrl, poolSize: config.databasePool, applicationName: 'studio-api' },
      serverOptions: limits,
    };
    return {
      module: HttpModule,
      providers: [
        { provide: ApiConfigToken, useValue: config },
        {
          provide: DataSource,
          useFactory: () => createDataSource(pool).initialize(),
        },
        { provide: TenantReads, useFactory: () => new TenantReads(pool) },
        {
          provide: TenantTransaction,
          inject: [DataSource, TenantReads],
          useFactory: (dataSource: DataSource, reads: TenantReads) =>
            new TenantTransaction(dataSource, reads),
        },
        { provide: AccessTokens, useFactory: () => new AccessTokens(config.tokenSecret) },
        {
          provide: ApiKeys,
          inject: [TenantTransaction],
          useFactory: (transaction: TenantTransaction) => new ApiKeys(transaction),
        },
        { provide: StorageToken, useFactory: () => createStorage(config.storage) },
        {
          provide: SignedAddresses,
          useFactory: () => new SignedAddresses(config.tokenSecret, config.publicUrl),
        },
        { provide: StudioKeys, useFactory: () => new StudioKeys(config.masterKeys) },
        { provide: APP_GUARD, useClass: AccessGuard },
        {
          provide: ReadLog,
          inject: [TenantTransaction],
          useFactory: (transaction: TenantTransaction) => new ReadLog(transaction),
        },
        { provide: APP_INTERCEPTOR, useClass: ReadLogInterceptor },
        { provide: APP_INTERCEPTOR, useClass: ETagInterceptor },
        { provide: APP_PIPE, useFactory: validationPipe },
        { provide: APP_FILTER, useClass: ProblemFilter },
      ],
      exports: [
        ApiConfigToken,
        DataSource,
        TenantTransaction,
        AccessTokens,
        StudioKeys,
        StorageToken,
        SignedAddresses,
      ],
    };
  }

  async onApplicationShutdown(): Promise<void> {
    await this.reads.close();
    if (this.dataSource.isInitialized) await this.dataSource.destroy();
    await stopTracing();
  }
}
