export { sendPage } from './send-page.js';
export { styleElement } from './style.js';
