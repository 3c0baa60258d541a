export {
  ConfigError,
  apiConfig,
  masterKeysOf,
  backupConfig,
  restoreConfig,
  workerConfig,
  type ApiConfig,
  type BackupConfig,
  type RestoreConfig,
  type WorkerConfig,
} from './config.js';
export type { StorageConfig } from './storage.js';
export { configurationReference, type Variable } from './reference.js';
