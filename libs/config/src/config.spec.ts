import { describe, expect, it } from '@jest/globals';
import { apiConfig, workerConfig } from './index.js';

const api = {
  DATABASE_URL: 'postgres://u:p@127.0.0.1:5432/studio',
  PUBLIC_URL: 'http://127.0.0.1:3000/',
  TOKEN_SECRET: 'x'.repeat(32),
  MASTER_KEYS: `first:${'A'.repeat(43)}`,
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

  it('refuses the test clock in production', () => {
    expect(() => apiConfig({ ...api, NODE_ENV: 'production', TEST_CLOCK: '1' })).toThrow('TEST_CLOCK');
  });

  it('asks the worker for Redis, SMTP, a sender and a key for links', () => {
    expect(() => workerConfig(api)).toThrow(
      /REDIS_URL: is missing\nSMTP_URL: is missing\nMAIL_FROM: is missing\nLINK_SECRET: is missing/,
    );
  });
});
