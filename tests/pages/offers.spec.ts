import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf } from '@studio/api-client';
import type { Browser, Page } from 'playwright-core';
import { browserProgram, openBrowser, shoot, sticksOut, violationsOn } from '../helpers/browser.js';
import { eventually, mailsTo } from '../helpers/mail.js';
import { takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';
import { startWorker, stop } from '../helpers/worker.js';

const withBrowser = browserProgram === null ? describe.skip : describe;

withBrowser('the page of an offer in Chromium (left out where there is none)', () => {
  let api: TestApi;
  let studio: TestStudio;
  let browser: Browser;
  let worker: ReturnType<typeof startWorker>;

  beforeAll(async () => {
    api = await startTestApi();
    studio = await openTestStudio(api);
    worker = startWorker(api, `offers-${Date.now()}`);
    browser = await openBrowser();
  });
  afterAll(async () => {
    await browser.close();
    await stop(worker);
    await api.close();
  });

  /** A client waits, and is mailed what is free: where there are no hours, any time is. */
  async function offered(email: string): Promise<{ wishId: string; url: string }> {
    const { clientId } = await takeOnClient(studio.owner, email);
    const body = { clientId, serviceId: studio.serviceId, firstDay: '2090-03-02', lastDay: '2090-03-06' };
    const { id: wishId } = await dataOf(studio.desk.POST('/v1/waiting-list', { body }));
    const mail = await eventually('the offer', 20, async () => (await mailsTo(email))[0]);
    const link = /http:\/\/127\.0\.0\.1[^\s]*(?<path>\/offers\/\S+)/.exec(mail.text)?.groups?.['path'];
    return { wishId, url: `${api.url}${link ?? ''}` };
  }
  const open = async (url: string): Promise<Page> => {
    const page = await (await browser.newContext({ viewport: { width: 360, height: 740 } })).newPage();
    await page.goto(url);
    return page;
  };
  const heading = (page: Page): Promise<string> => page.locator('h1').innerText();
  const stateOf = async (wishId: string) =>
    (await dataOf(studio.desk.GET('/v1/waiting-list/{wishId}', { params: { path: { wishId } } }))).state;
  const isFine = async (page: Page, name: string): Promise<void> => {
    await shoot(page, name);
    expect(await violationsOn(page)).toEqual([]);
    expect(await sticksOut(page)).toBe(false);
  };

  it('takes the time once; to look at it takes nothing', async () => {
    const { wishId, url } = await offered('takes@riders.example');
    const page = await open(url);
    expect(await heading(page)).toBe('A time came free for you');
    await isFine(page, 'offer');
    await page.reload();
    expect(await stateOf(wishId)).toBe('offered');
    await page.getByRole('button', { name: 'Take this time' }).click();
    expect(await heading(page)).toBe('The time is yours');
    await isFine(page, 'offer-taken');
    expect(await stateOf(wishId)).toBe('booked');
    await page.goto(url);
    expect(await heading(page)).toBe('This time was taken already');
    await isFine(page, 'offer-closed');
    await page.goto(`${url.slice(0, -3)}AAA`);
    expect(await heading(page)).toBe('We do not know this link');
  });

  it('lets the client say no, and stay on the list', async () => {
    const { wishId, url } = await offered('declines@riders.example');
    const page = await open(url);
    await page.getByRole('button', { name: 'Not this time' }).click();
    expect(await heading(page)).toBe('You stay on the list');
    expect(['waiting', 'offered']).toContain(await stateOf(wishId));
  });
});
