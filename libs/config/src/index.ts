export { ConfigError, apiConfig, workerConfig, type ApiConfig, type WorkerConfig } from './config.js';
