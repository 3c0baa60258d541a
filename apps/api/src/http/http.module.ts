import { Global, Module, type DynamicModule, type OnApplicationShutdown } from '@nestjs/common';
import { APP_FILTER, APP_GUARD, APP_PIPE, DiscoveryModule } from '@nestjs/core';
import type { ApiConfig } from '@studio/config';
import { createDataSource, ReplicaReads, StudioKeys, TenantReads, TenantTransaction } from '@studio/database';
import { createStorage, SignedAddresses } from '@studio/storage';
import { stopTracing } from '@studio/tracing';
import { DataSource } from 'typeorm';
import { AccessGuard } from './access.guard.js';
import { ApiKeys } from './api-keys.js';
import { AccessTokens } from './access-tokens.js';
import { ReadLog } from './read-log.js';
import { ProblemFilter } from './problem.filter.js';
import { RestrictedRecordsGuard } from './restricted-records.js';
import { Routes } from './routes.js';
import { validationPipe } from './validation.pipe.js';

export const ApiConfigToken = Symbol('ApiConfig');
export const StorageToken = Symbol('ObjectStorage');

/** The primary is asked instead of a replica that takes longer to connect to. */
const replicaWithinMs = 1_000;

/** What every feature stands on: configuration, database, access, validation, problem documents. */
@Global()
@Module({})
export class HttpModule implements OnApplicationShutdown {
  constructor(
    private readonly dataSource: DataSource,
    private readonly reads: TenantReads,
    private readonly replicaReads: ReplicaReads,
  ) {}

  static with(config: ApiConfig): DynamicModule {
    const { databaseReplicaUrl: replicaUrl } = config;
    const pool = {
      url: config.databaseUrl,
      poolSize: config.databasePool,
      pooled: config.databasePooled,
      applicationName: 'studio-api',
    };
    return {
      module: HttpModule,
      imports: [DiscoveryModule],
      providers: [
        { provide: ApiConfigToken, useValue: config },
        { provide: DataSource, useFactory: () => createDataSource(pool).initialize() },
        { provide: TenantReads, useFactory: () => new TenantReads(pool) },
        {
          provide: ReplicaReads,
          inject: [TenantReads],
          useFactory: (reads: TenantReads) =>
            new ReplicaReads(
              reads,
              replicaUrl === null
                ? null
                : new TenantReads({ ...pool, url: replicaUrl, connectWithinMs: replicaWithinMs }),
            ),
        },
        {
          provide: TenantTransaction,
          inject: [DataSource, TenantReads, StudioKeys, ReplicaReads],
          useFactory: (...parts: ConstructorParameters<typeof TenantTransaction>) =>
            new TenantTransaction(...parts),
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
        Routes,
        { provide: APP_GUARD, useClass: AccessGuard },
        { provide: APP_GUARD, useClass: RestrictedRecordsGuard },
        {
          provide: ReadLog,
          inject: [TenantTransaction],
          useFactory: (transaction: TenantTransaction) => new ReadLog(transaction),
        },
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
    await this.replicaReads.close();
    await this.reads.close();
    if (this.dataSource.isInitialized) await this.dataSource.destroy();
    await stopTracing();
  }
}
