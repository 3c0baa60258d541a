export { layout } from './layout.js';
export { sendPage } from './send-page.js';
