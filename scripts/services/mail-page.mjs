/** @type {Record<string, string>} */
const entities = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/**
 * Everything in a mail is a stranger's text.
 *
 * @param {string} text
 */
function escape(text) {
  return text.replace(/[&<>"']/g, (character) => entities[character] ?? '');
}

/** @param {string} text */
function withLinks(text) {
  return escape(text).replace(/https?:\/\/[^\s<>&]+/g, (url) => `<a href="${url}">${url}</a>`);
}

/**
 * The caught mails as a page, newest first.
 *
 * @param {readonly import('./mail-catcher.mjs').CaughtMail[]} mails
 */
export function mailPage(mails) {
  const articles = [...mails].reverse().map(
    (mail) => `<article>
<h2>${escape(mail.subject)}</h2>
<p>from ${escape(mail.from)} to ${escape(mail.to.join(', '))}, ${escape(mail.date)}${
      mail.attachments.length === 0 ? '' : `, with ${escape(mail.attachments.join(', '))}`
    }</p>
<pre>${withLinks(mail.text)}</pre>
</article>`,
  );
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<title>Caught mail</title>
<style>
  body { font: 1rem/1.5 system-ui, sans-serif; max-width: 50rem; margin: 2rem auto; padding: 0 1rem }
  article { border-top: 1px solid; padding: 0.5rem 0 } h2 { font-size: 1.1rem; margin: 0.5rem 0 }
  pre { white-space: pre-wrap; overflow-wrap: anywhere; background: #8881; padding: 1rem }
</style>
<h1>Caught mail</h1>
<p>Nothing sent here leaves this machine. ${mails.length === 0 ? 'No mail yet.' : `${mails.length}, newest first.`}</p>
${articles.join('\n')}
</html>
`;
}
