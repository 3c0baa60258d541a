const escaped: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
const escape = (text: string): string => text.replace(/[&<>"]/g, (character) => escaped[character] ?? '');

const link = (line: string): string =>
  /^https?:\/\/\S+$/.test(line)
    ? `<a href="${escape(line)}" style="color:#0b4f71">${escape(line)}</a>`
    : escape(line);

const paragraph = (text: string): string =>
  `<p style="margin:0 0 1em">${text.split('\n').map(link).join('<br>')}</p>`;

/** The same words as HTML: paragraphs and links, no picture, nothing loaded from elsewhere. */
export function htmlBody(text: string, { language, title }: { language: string; title: string }): string {
  const paragraphs = text.split(/\n{2,}/).map(paragraph);
  return `<!doctype html>
<html lang="${language}"><head><meta charset="utf-8"><title>${escape(title)}</title></head>
<body style="margin:0;padding:16px;color:#16202a;font:16px/1.5 system-ui,sans-serif;overflow-wrap:anywhere">
<div style="max-width:36em">${paragraphs.join('\n')}</div>
</body></html>
`;
}
