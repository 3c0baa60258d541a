import { describe, expect, it } from '@jest/globals';
import { apiConfig, workerConfig } from './index.js';

const api = {
  DATABASE_URL: 'postgres://u:p@127.0.0.1:5432/studio',
  PUBLIC_URL: 'http://127.0.0.1:3000/',
  TOKEN_SECRET: 'x'.repeat(32),
  WEBHOOK_KEY: 'x'.repeat(32),
  MASTER_KEYS: `first:${'A'.repeat(43)}`,
};
const worker = {
  REDIS_URL: 'redis://127.0.0.1:6379',
  SMTP_URL: 'smtp://127.0.0.1:25',
  MAIL_FROM: 'studio@fitting.example',
  LINK_SECRET: 'x'.repeat(32),
};

describe('config', () => {
  it('reads the API environment with its defaults, frozen', () => {
    const config = apiConfig(api);
    expect(config).toMatchObject({
      host: '127.0.0.1',
      port: 3000,
      publicUrl: 'http://127.0.0.1:3000',
      testClock: false,
    });
    expect(Object.isFrozen(config)).toBe(true);
  });

  it('names what is missing or malformed and never prints a value', () => {
    const wrong = { ...api, TOKEN_SECRET: 'short-secret', PUBLIC_URL: undefined };
    expect(() => apiConfig(wrong)).toThrow('PUBLIC_URL: is missing');
    expect(() => apiConfig(wrong)).toThrow('TOKEN_SECRET: is malformed');
    expect(() => apiConfig(wrong)).not.toThrow('short-secret');
  });

  it.each(['TEST_CLOCK', 'LOCAL_WEBHOOKS'])('refuses %s in production, to both apps', (name) => {
    const production = { ...api, ...worker, NODE_ENV: 'production' };
    expect(apiConfig(production).production).toBe(true);
    expect(workerConfig(production).production).toBe(true);
    expect(() => apiConfig({ ...production, [name]: '1' })).toThrow(name);
    expect(() => workerConfig({ ...production, [name]: '1' })).toThrow(name);
  });

  it('keeps files in a folder until a bucket is named', () => {
    expect(apiConfig(api).storage).toEqual({ kind: 'folder', folder: '.data/files' });
    const named = { ...api, STORAGE_S3_BUCKET: 'studio', STORAGE_S3_ENDPOINT: 'http://127.0.0.1:9000' };
    expect(apiConfig(named).storage).toEqual({
      kind: 's3',
      bucket: 'studio',
      region: 'us-east-1',
      endpoint: 'http://127.0.0.1:9000',
    });
    const keys = { STORAGE_S3_ACCESS_KEY_ID: 'id', STORAGE_S3_SECRET_ACCESS_KEY: 'secret' };
    expect(apiConfig({ ...named, ...keys }).storage).toMatchObject({
      credentials: { accessKeyId: 'id', secretAccessKey: 'secret' },
    });
  });

  it('finds Redis at its address, or by Sentinels', () => {
    expect(workerConfig({ ...api, ...worker }).redis).toMatchObject({ sentinels: [] });
    const sentinels = '10.0.0.1:26379,sentinel-2:26379';
    expect(workerConfig({ ...api, ...worker, REDIS_SENTINELS: sentinels }).redis).toEqual({
      url: 'redis://127.0.0.1:6379',
      sentinels: ['10.0.0.1:26379', 'sentinel-2:26379'],
      sentinelPassword: null,
      primaryName: 'studio',
    });
    expect(() => workerConfig({ ...api, ...worker, REDIS_SENTINELS: 'sentinel-1' })).toThrow(
      'REDIS_SENTINELS: is malformed',
    );
  });

  it('hears of new orders at the database itself, not through a pooler', () => {
    const all = { ...api, ...worker };
    expect(workerConfig(all).listenUrl).toBe(api.DATABASE_URL);
    expect(workerConfig({ ...all, DATABASE_POOLED: '1' }).listenUrl).toBeNull();
    const direct = 'postgres://u:p@127.0.0.1:5433/studio';
    expect(workerConfig({ ...all, DATABASE_POOLED: '1', DATABASE_LISTEN_URL: direct }).listenUrl).toBe(
      direct,
    );
  });

  it('asks the worker for Redis, SMTP, a sender and a key for links', () => {
    expect(() => workerConfig(api)).toThrow(
      /REDIS_URL: is missing\nSMTP_URL: is missing\nMAIL_FROM: is missing\nLINK_SECRET: is missing/,
    );
  });
});
