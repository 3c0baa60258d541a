import {
  Global,
  Injectable,
  Module,
  type DynamicModule,
  type OnApplicationBootstrap,
  type OnApplicationShutdown,
} from '@nestjs/common';
import type { Server } from 'node:http';
import type { WorkerConfig } from '@studio/config';
import { createDataSource, StudioKeys, TenantReads, TenantTransaction } from '@studio/database';
import { rulesOf } from '@studio/job-contracts';
import { createStorage, type ObjectStorage } from '@studio/storage';
import { stopTracing, traceIds } from '@studio/tracing';
import { pino, type Logger } from 'pino';
import { DataSource } from 'typeorm';
import { Heartbeat } from './heartbeat/heartbeat.js';
import { healthServer } from './health-server.js';
import { JobRunner } from './job-runner.js';
import { jobRegistry } from './job-registry.js';
import { Mailer } from './mailer.js';
import { Metrics } from './metrics/metrics.js';
import { OutboxRelay } from './outbox-relay/outbox-relay.js';
import { Queues } from './queues.js';
import { redisConnection } from './redis-connection.js';
import { Scheduler } from './scheduler/scheduler.js';
import { schedules } from './schedules.js';

/** What is still being carried out then is told to stop, and handed back. */
const stopWithinMs = 20_000;

export const LoggerToken = Symbol('Logger');
const ConfigToken = Symbol('WorkerConfig');
const StorageToken = Symbol('ObjectStorage');

/** Starts the parts in order and stops them in the opposite one: nothing new is taken, what runs is finished. */
@Injectable()
class WorkerLife implements OnApplicationBootstrap, OnApplicationShutdown {
  private readonly heartbeat: Heartbeat;
  private readonly health: Server;

  constructor(
    private readonly config: WorkerConfig,
    private readonly dataSource: DataSource,
    private readonly reads: TenantReads,
    private readonly queues: Queues,
    private readonly relay: OutboxRelay,
    private readonly runner: JobRunner,
    private readonly scheduler: Scheduler,
    private readonly mailer: Mailer,
    metrics: Metrics,
  ) {
    this.health = healthServer(() => this.isReady(), metrics.registry);
    this.heartbeat = new Heartbeat(dataSource);
  }

  async onApplicationBootstrap(): Promise<void> {
    this.runner.start();
    this.relay.start();
    this.scheduler.start();
    this.heartbeat.start();
    await new Promise<void>((resolve, reject) => {
      this.health.once('error', reject).listen(this.config.port, this.config.host, resolve);
    });
  }

  async onApplicationShutdown(): Promise<void> {
    await this.scheduler.stop();
    await this.relay.stop();
    await this.runner.stop(stopWithinMs);
    await this.queues.close();
    this.mailer.close();
    this.health.close();
    this.health.closeAllConnections();
    await this.heartbeat.stop();
    await this.reads.close();
    await this.dataSource.destroy();
    await stopTracing();
  }

  private async isReady(): Promise<boolean> {
    try {
      await Promise.all([this.dataSource.query('SELECT 1'), this.queues.ping()]);
      return true;
    } catch {
      return false;
    }
  }
}

@Global()
@Module({})
export class WorkerModule {
  static with(config: WorkerConfig): DynamicModule {
    const pool = {
      url: config.databaseUrl,
      poolSize: config.databasePool,
      pooled: config.databasePooled,
      applicationName: 'studio-worker',
    };
    const connection = redisConnection(config.redis);
    const prefix = `{${config.queuePrefix}}`;
    return {
      module: WorkerModule,
      providers: [
        { provide: ConfigToken, useValue: config },
        { provide: LoggerToken, useFactory: () => pino({ level: config.logLevel, mixin: traceIds }) },
        { provide: DataSource, useFactory: () => createDataSource(pool).initialize() },
        { provide: TenantReads, useFactory: () => new TenantReads({ ...pool, poolSize: 2 }) },
        {
          provide: TenantTransaction,
          inject: [DataSource, TenantReads],
          useFactory: (dataSource: DataSource, reads: TenantReads) =>
            new TenantTransaction(dataSource, reads, new StudioKeys(config.masterKeys)),
        },
        { provide: Mailer, useFactory: () => new Mailer(config.smtpUrl, config.mailFrom) },
        { provide: StorageToken, useFactory: () => createStorage(config.storage) },
        {
          provide: Metrics,
          inject: [DataSource],
          useFactory: (dataSource: DataSource) => new Metrics(dataSource),
        },
        { provide: Queues, useFactory: () => new Queues(connection, prefix) },
        {
          provide: OutboxRelay,
          inject: [DataSource, Queues, LoggerToken, Metrics],
          useFactory: (dataSource: DataSource, queues: Queues, log: Logger, metrics: Metrics) =>
            new OutboxRelay(dataSource, queues, log, metrics, {
              listenUrl: config.listenUrl,
              handAgainAfterSeconds: config.handAgainAfterSeconds,
            }),
        },
        {
          provide: JobRunner,
          inject: [TenantTransaction, Mailer, StorageToken, OutboxRelay, LoggerToken, Metrics],
          useFactory: (
            transaction: TenantTransaction,
            mailer: Mailer,
            storage: ObjectStorage,
            relay: OutboxRelay,
            log: Logger,
            metrics: Metrics,
          ) =>
            new JobRunner(jobRegistry({ transaction, mailer, storage, config }), transaction, log, metrics, {
              connection,
              prefix,
              rules: rulesOf,
              onSettled: () => {
                relay.settled();
              },
            }),
        },
        {
          provide: Scheduler,
          inject: [DataSource, TenantTransaction, LoggerToken],
          useFactory: (dataSource: DataSource, transaction: TenantTransaction, log: Logger) =>
            new Scheduler(dataSource, transaction, log, schedules),
        },
        {
          provide: WorkerLife,
          inject: [
            ConfigToken,
            DataSource,
            TenantReads,
            Queues,
            OutboxRelay,
            JobRunner,
            Scheduler,
            Mailer,
            Metrics,
          ],
          useFactory: (...parts: ConstructorParameters<typeof WorkerLife>) => new WorkerLife(...parts),
        },
      ],
    };
  }
}
