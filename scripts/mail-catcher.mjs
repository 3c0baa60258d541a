// A mail server for demo and tests that shows what it is sent and delivers nothing. Addresses come from the environment:
// MAIL_HOST, MAIL_SMTP_PORT, MAIL_HTTP_PORT, MAIL_FOLDER.
import { serveMailCatcher } from './services/mail-catcher.mjs';
import { dataFolder } from './services/paths.mjs';

const { env } = process;
const options = {
  host: env['MAIL_HOST'] ?? '127.0.0.1',
  smtpPort: Number(env['MAIL_SMTP_PORT'] ?? 3025),
  httpPort: Number(env['MAIL_HTTP_PORT'] ?? 3080),
  folder: env['MAIL_FOLDER'] ?? `${dataFolder('demo')}/mail`,
};
const catcher = await serveMailCatcher(options);
console.log(
  `SMTP on ${options.host}:${options.smtpPort}, pages on http://${options.host}:${options.httpPort}/`,
);
for (const signal of ['SIGINT', 'SIGTERM']) process.once(signal, () => void catcher.close());
