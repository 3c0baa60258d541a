// The baseline: BullMQ takes a ready mail from Redis and nodemailer sends it; nothing is looked up or written down.
import { Worker } from 'bullmq';
import { createTransport } from 'nodemailer';

const redis = new URL(process.env['REDIS_URL'] ?? '');
const transport = createTransport({ url: process.env['SMTP_URL'], pool: true, maxConnections: 5 });
/** @type {Worker<import('nodemailer').SendMailOptions>} */
const worker = new Worker('bare', (job) => transport.sendMail(job.data), {
  connection: { host: redis.hostname, port: Number(redis.port) },
  prefix: '{bare}',
  concurrency: Number(process.env['CONCURRENCY']),
});
worker.on('error', () => undefined);
