export { ArchiveUnreadable } from './archive.js';
export { checkRestored, type RestoredStudio } from './check-restored.js';
export { newBackupKey } from './backup-key.js';
export type { About, Contents, ObjectDigest } from './contents.js';
export { makeBackup } from './make-backup.js';
export { RestoredDiffers, restoreBackup, type RestoreOptions } from './restore-backup.js';
export type { TableDigest } from './table-copy.js';
