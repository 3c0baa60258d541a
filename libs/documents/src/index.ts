export { escapeHtml, Html, html, type Value } from './html.js';
export { pdfFonts } from './pdf-fonts.js';
