export { ConfigError, apiConfig, workerConfig, type ApiConfig, type WorkerConfig } from './config.js';
export type { StorageConfig } from './storage.js';
