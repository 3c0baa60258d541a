import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { signIn } from '@studio/api-client';
import { newSecret, secretHash, tenantToken } from '../../libs/database/src/tenant-token.js';
import pg from 'pg';
import type { Browser, Page } from 'playwright-core';
import { browserProgram, openBrowser, shoot, sticksOut, violationsOn } from '../helpers/browser.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

const withBrowser = browserProgram === null ? describe.skip : describe;

withBrowser('the page to choose a password in Chromium (left out where there is none)', () => {
  let api: TestApi;
  let studio: TestStudio;
  let browser: Browser;
  let database: pg.Client;
  let page: Page;

  beforeAll(async () => {
    api = await startTestApi();
    studio = await openTestStudio(api);
    browser = await openBrowser();
    database = new pg.Client({ connectionString: api.database.adminUrl });
    await database.connect();
    page = await browser.newPage({ viewport: { width: 320, height: 640 } });
  });
  afterAll(async () => {
    await database.end();
    await browser.close();
    await api.close();
  });

  const newLink = async (): Promise<string> => {
    const { studioId } = studio.studio;
    const secret = newSecret();
    const { rows } = await database.query<{ id: string }>(
      `INSERT INTO password_links (studio_id, user_id, reason, link_hash, expires_at)
       VALUES ($1, $2, 'invitation', $3, now() + interval '1 day') RETURNING id`,
      [studioId, studio.owner.signedIn.id, secretHash(secret)],
    );
    return `${api.url}/choose-password/${tenantToken({ studioId, id: rows[0]?.id ?? '', secret })}`;
  };
  const check = async (name: string, heading: string): Promise<void> => {
    await shoot(page, `choose-password-${name}`);
    expect(await page.locator('h1').innerText()).toBe(heading);
    expect([name, await violationsOn(page), await sticksOut(page)]).toEqual([name, [], false]);
  };
  const type = async (password: string, again = password): Promise<void> => {
    await page.getByLabel('Password', { exact: true }).fill(password);
    await page.getByLabel('The same again').fill(again);
    await page.getByRole('button').click();
  };
  const password = 'five herons behind the lock';

  it('says whose it is, refuses what is not good without losing the link, and takes what is', async () => {
    const answer = await page.goto(await newLink());
    expect(answer?.headers()).toMatchObject({
      'cache-control': 'no-store',
      'referrer-policy': 'no-referrer',
    });
    await check('asked', 'Choose a password');
    expect(await page.getByLabel('Your address').inputValue()).toBe(studio.studio.owner.email);

    await type('too short');
    await check('refused', 'Choose a password');
    expect(await page.getByRole('alert').innerText()).toContain('at least 15 characters');
    expect(await page.getByLabel('Password', { exact: true }).inputValue()).toBe('');

    await type(password, `${password} `);
    expect(await page.getByRole('alert').innerText()).toContain('The two are not the same.');

    await type(password);
    await check('chosen', 'Your password is chosen');
    const { handle, owner } = studio.studio;
    const signedIn = await signIn(api.url, { studio: handle, email: owner.email, password });
    expect(signedIn.signedIn.id).toBe(studio.owner.signedIn.id);
  });

  it('works by keyboard and without script, and once', async () => {
    const context = await browser.newContext({ javaScriptEnabled: false });
    const plain = await context.newPage();
    const link = await newLink();
    await plain.goto(link);
    await plain.locator('#password').focus();
    await plain.keyboard.type('seven oars under a red bridge');
    await plain.keyboard.press('Tab');
    await plain.keyboard.type('seven oars under a red bridge');
    await Promise.all([plain.waitForEvent('load'), plain.keyboard.press('Enter')]);
    expect(await plain.locator('h1').innerText()).toBe('Your password is chosen');
    const again = await plain.goto(link);
    expect(again?.status()).toBe(410);
    await context.close();
  });

  it('is not there for a link that is none', async () => {
    const answer = await page.goto(`${api.url}/choose-password/no-link`);
    expect(answer?.status()).toBe(410);
    await check('spent', 'This link was used or has run out');
  });
});
