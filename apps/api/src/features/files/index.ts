export { announceFile, discardFile, sha256Of } from './bytes-and-row.js';
export { insertFile } from './files.queries.js';
