export {
  ConfigError,
  apiConfig,
  workerConfig,
  type ApiConfig,
  type StorageConfig,
  type WorkerConfig,
} from './config.js';
