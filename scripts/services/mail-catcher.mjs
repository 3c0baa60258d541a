import { mkdirSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import path from 'node:path';
import { buffer } from 'node:stream/consumers';
import { simpleParser } from 'mailparser';
import { SMTPServer } from 'smtp-server';
import { mailPage } from './mail-page.mjs';

/**
 * @typedef {{
 *   id: string, from: string, to: string[], subject: string, date: string, text: string, html: string,
 *   headers: Record<string, string>, attachments: string[], calendar: string | null,
 * }} CaughtMail
 */

/** The newest are kept in memory; all of them stay on disk. */
const keptInMemory = 1000;

/**
 * A mail server that delivers nothing: it takes every mail, and shows it over HTTP.
 *
 *     GET /           a page
 *     GET /messages   JSON, oldest first
 *     DELETE /messages
 *
 * @param {{ host: string, smtpPort: number, httpPort: number, folder: string }} options each mail is also written to
 *   `folder` as it came
 * @returns {Promise<{ close: () => Promise<void> }>}
 */
export async function serveMailCatcher({ host, smtpPort, httpPort, folder }) {
  mkdirSync(folder, { recursive: true });
  /** @type {CaughtMail[]} */
  const mails = [];
  let count = 0;

  const smtp = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS', 'AUTH'],
    size: 10 * 1024 * 1024,
    onData(stream, session, done) {
      void receive(stream, session).then(() => {
        done();
      }, done);
    },
  });

  /**
   * @param {import('node:stream').Readable} stream
   * @param {import('smtp-server').SMTPServerSession} session
   */
  async function receive(stream, session) {
    const raw = await buffer(stream);
    count += 1;
    const id = `${Date.now()}-${count}`;
    writeFileSync(path.join(folder, `${id}.eml`), raw);
    mails.push(
      await parse(
        id,
        raw,
        session.envelope.rcptTo.map(({ address }) => address),
      ),
    );
    mails.splice(0, mails.length - keptInMemory);
  }

  const http = createServer((request, response) => {
    const route = `${request.method} ${request.url}`;
    if (route === 'GET /') {
      response.setHeader('content-type', 'text/html; charset=utf-8');
      response.setHeader('content-security-policy', "default-src 'none'; style-src 'unsafe-inline'");
      response.end(mailPage(mails));
    } else if (route === 'GET /messages') {
      response.setHeader('content-type', 'application/json');
      response.end(JSON.stringify(mails));
    } else if (route === 'DELETE /messages') {
      mails.length = 0;
      response.writeHead(204).end();
    } else {
      response.writeHead(404).end();
    }
  });

  await Promise.all([listening(smtp, smtpPort, host), listening(http, httpPort, host)]);
  return {
    close: async () => {
      await new Promise((resolve) => {
        smtp.close(() => {
          resolve(undefined);
        });
      });
      http.closeAllConnections();
      await new Promise((resolve) => http.close(resolve));
    },
  };
}

/**
 * @param {string} id
 * @param {Buffer} raw
 * @param {string[]} to
 * @returns {Promise<CaughtMail>}
 */
async function parse(id, raw, to) {
  const mail = await simpleParser(raw, { skipImageLinks: true });
  const calendar = mail.attachments.find(({ contentType }) => contentType === 'text/calendar');
  return {
    id,
    from: mail.from?.text ?? '',
    to,
    subject: mail.subject ?? '',
    date: (mail.date ?? new Date()).toISOString(),
    text: mail.text ?? '',
    html: typeof mail.html === 'string' ? mail.html : '',
    headers: Object.fromEntries(
      mail.headerLines.map(({ key, line }) => [key, line.slice(line.indexOf(':') + 1).trim()]),
    ),
    attachments: mail.attachments.map(({ filename }) => filename ?? ''),
    calendar: calendar?.content.toString('utf8') ?? null,
  };
}

/**
 * @param {import('smtp-server').SMTPServer | import('node:http').Server} server
 * @param {number} port
 * @param {string} host
 * @returns {Promise<void>}
 */
function listening(server, port, host) {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, () => {
      resolve();
    });
  });
}
