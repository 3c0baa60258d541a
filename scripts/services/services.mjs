import path from 'node:path';
import { connects, startPostgres } from './postgres.mjs';
import { LaunchError } from './launch-error.mjs';
import { root } from './paths.mjs';
import { freePort } from './ports.mjs';
import { answers, untilHealthy } from './processes.mjs';
import { startRedis } from './redis.mjs';
import { secretsOf } from './secrets.mjs';
import { step } from './step.mjs';

/** @typedef {import('./processes.mjs').Processes} Processes */

/**
 * PostgreSQL: the one DATABASE_URL names (an administrator's URL), or one of our own.
 *
 * @param {Processes} processes
 * @param {{ throwaway: boolean }} options
 * @returns {Promise<string>} an administrator's URL
 */
export async function postgresService(processes, { throwaway }) {
  const given = process.env['DATABASE_URL'];
  if (given === undefined) {
    const { admin } = secretsOf(processes.folder);
    return step('starting PostgreSQL', () => startPostgres(processes, { password: admin, throwaway }));
  }
  try {
    await connects(given);
  } catch (error) {
    throw new LaunchError(`DATABASE_URL: ${error instanceof Error ? error.message : String(error)}`);
  }
  return given;
}

/**
 * Redis: the one REDIS_URL names, or one of our own.
 *
 * @param {Processes} processes
 * @param {{ throwaway: boolean }} options
 * @returns {Promise<string>}
 */
export async function redisService(processes, options) {
  return process.env['REDIS_URL'] ?? (await step('starting Redis', () => startRedis(processes, options)));
}

/**
 * Where mail goes: to the server SMTP_URL names, or to the mail catcher. Of a server of someone else's we do not know
 * how to look into the mail, unless MAIL_URL names a catcher of ours that runs elsewhere.
 *
 * @param {Processes} processes
 * @returns {Promise<{ smtpUrl: string, mailUrl: string | null }>}
 */
export async function mailService(processes) {
  const given = process.env['SMTP_URL'];
  if (given === undefined) return startMailCatcher(processes);
  return { smtpUrl: given, mailUrl: process.env['MAIL_URL'] ?? null };
}

/**
 * The mail catcher, a process of its own.
 *
 * @param {Processes} processes
 * @returns {Promise<{ smtpUrl: string, mailUrl: string }>}
 */
export async function startMailCatcher(processes) {
  const [smtpPort, httpPort] = [await freePort(3025), await freePort(3080)];
  const mailUrl = `http://127.0.0.1:${httpPort}`;
  await step('starting the mail catcher', () => {
    const running = processes.start(
      'mail-catcher',
      process.execPath,
      [path.join(root, 'scripts', 'mail-catcher.mjs')],
      {
        env: {
          ...process.env,
          MAIL_HOST: '127.0.0.1',
          MAIL_SMTP_PORT: String(smtpPort),
          MAIL_HTTP_PORT: String(httpPort),
          MAIL_FOLDER: path.join(processes.folder, 'mail'),
        },
      },
    );
    return untilHealthy(running, answers(`${mailUrl}/messages`));
  });
  return { smtpUrl: `smtp://127.0.0.1:${smtpPort}`, mailUrl };
}
