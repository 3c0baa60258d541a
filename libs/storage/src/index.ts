export { createStorage } from './create-storage.js';
export { fileKeys } from './file-keys.js';
export { fitSheetKeys } from './fit-sheet-keys.js';
export { personExportKey } from './person-export-key.js';
export { FolderStorage } from './folder-storage.js';
export { addressPath, SignedAddresses, type AddressedObject } from './signed-addresses.js';
export { storageKey } from './storage-key.js';
export type { ObjectStorage, StoredObject } from './storage.js';
