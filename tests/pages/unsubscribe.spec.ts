import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf } from '@studio/api-client';
import { newSecret, secretHash, tenantToken } from '../../libs/database/src/tenant-token.js';
import pg from 'pg';
import type { Browser } from 'playwright-core';
import { browserProgram, openBrowser, shoot, sticksOut, violationsOn } from '../helpers/browser.js';
import { takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

const withBrowser = browserProgram === null ? describe.skip : describe;

withBrowser('the page to unsubscribe in Chromium (left out where there is none)', () => {
  let api: TestApi;
  let studio: TestStudio;
  let browser: Browser;
  let database: pg.Client;

  beforeAll(async () => {
    api = await startTestApi();
    studio = await openTestStudio(api);
    browser = await openBrowser();
    database = new pg.Client({ connectionString: api.database.adminUrl });
    await database.connect();
  });
  afterAll(async () => {
    await database.end();
    await browser.close();
    await api.close();
  });

  it.each([
    ['en', 'No more mails?', 'Send me no more mails', 'You get no more mails'],
    ['de', 'Keine Mails mehr?', 'Keine Mails mehr schicken', 'Sie bekommen keine Mails mehr'],
  ])('in %s asks first, is read by everybody, and fits a phone', async (language, asks, button, done) => {
    const { studioId } = studio.studio;
    const { clientId } = await takeOnClient(studio.owner, `${language}@riders.example`);
    const secret = newSecret();
    const { rows } = await database.query<{ id: string }>(
      `INSERT INTO messages (studio_id, client_id, template, language, unsubscribe_hash, state, sent_at)
       VALUES ($1, $2, 'reminder_two_days', $3, $4, 'sent', now()) RETURNING id`,
      [studioId, clientId, language, secretHash(secret)],
    );
    const link = tenantToken({ studioId, id: rows[0]?.id ?? '', secret });
    const page = await browser.newPage({ viewport: { width: 320, height: 640 }, javaScriptEnabled: true });
    const answer = await page.goto(`${api.url}/unsubscribe/${link}`);
    expect(answer?.headers()).toMatchObject({
      'cache-control': 'no-store',
      'referrer-policy': 'no-referrer',
    });
    const check = async (name: string): Promise<void> => {
      await shoot(page, `unsubscribe-${language}-${name}`);
      expect(await page.evaluate('document.documentElement.lang')).toBe(language);
      expect(await violationsOn(page)).toEqual([]);
      expect(await sticksOut(page)).toBe(false);
    };
    expect(await page.locator('h1').innerText()).toBe(asks);
    await check('ask');
    const standing = async (): Promise<boolean> => {
      const consents = await dataOf(
        studio.desk.GET('/v1/clients/{clientId}/consents', { params: { path: { clientId } } }),
      );
      return consents.some(({ kind, withdrawnAt }) => kind === 'contact' && withdrawnAt === null);
    };
    expect(await standing()).toBe(true);
    await page.getByRole('button', { name: button }).click();
    expect(await page.locator('h1').innerText()).toBe(done);
    await check('done');
    expect(await standing()).toBe(false);
    await page.close();
  });
});
