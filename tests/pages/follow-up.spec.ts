import { afterAll, afterEach, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf } from '@studio/api-client';
import type { Browser, Page } from 'playwright-core';
import { browserProgram, openBrowser, shoot, sticksOut, violationsOn } from '../helpers/browser.js';
import { askFirstFollowUp } from '../helpers/follow-up.js';
import { steadyRide } from '../helpers/ride.js';
import { screen, signedSession, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

const withBrowser = browserProgram === null ? describe.skip : describe;
const phone = { width: 360, height: 740 };

withBrowser('the follow-up pages in Chromium (left out where there is none)', () => {
  let api: TestApi;
  let studio: TestStudio;
  let browser: Browser;

  beforeAll(async () => {
    api = await startTestApi();
    studio = await openTestStudio(api);
    browser = await openBrowser();
  });
  afterAll(async () => {
    await browser.close();
    await api.close();
  });
  afterEach(() => Promise.all(browser.contexts().map((context) => context.close())));

  const newLink = async (activity: string): Promise<string> => {
    const client = await takeOnClient(studio.owner);
    await screen(studio.desk, client.clientId);
    await signedSession(studio.owner, client, async (fitSessionId) => {
      const of = { params: { path: { fitSessionId } }, body: { activities: [{ activity, ability: 3 }] } };
      await dataOf(studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/chosen-activities', of));
    });
    return `${api.url}${await askFirstFollowUp(api, studio, client.clientId)}`;
  };
  const heading = (page: Page): Promise<string> => page.locator('h1').innerText();
  const press = async (page: Page, name: string): Promise<void> => {
    await page.getByRole('button', { name }).click();
  };
  const look = async (page: Page, name: string): Promise<void> => {
    await shoot(page, `follow-up-${name}`);
    expect([name, await violationsOn(page), await sticksOut(page)]).toEqual([name, [], false]);
  };

  it('have no violation by axe-core, and nothing sticks out on a phone, on every page', async () => {
    // Long German words are what breaks a narrow page.
    const url = await newLink('Mittelgebirgsüberquerungswochenendausfahrten ohne Fußsohlentaubheitsgefühle');
    const page = await (await browser.newContext({ viewport: phone })).newPage();
    await page.goto(url);
    await look(page, 'start');
    await press(page, 'Start');
    await press(page, 'Save and go on');
    await look(page, 'page-wrong');
    await page.locator('input[name=anything_new][value=no]').check();
    await press(page, 'Save and go on');
    await page.locator('input[value=left_knee_front]').check();
    await press(page, 'Save and go on');
    for (let at = 1; (await heading(page)) !== 'Check your answers'; at += 1) {
      expect(at).toBeLessThan(15);
      await look(page, `page-${at}`);
      for (const none of await page.locator('input[type=checkbox][value="-none"]').all()) await none.check();
      for (const first of await page.locator('fieldset').all()) {
        const radio = first.locator('input[type=radio]').first();
        if ((await radio.count()) > 0) await radio.check();
      }
      for (const unknown of await page.locator('input[type=checkbox][name$=".unknown"]').all())
        await unknown.check();
      const pain = page.locator('input[name=pain]');
      if ((await pain.count()) > 0) {
        await pain.fill('11');
        await press(page, 'Save and go on');
        await look(page, 'out-of-range');
        await pain.fill('2');
      }
      await press(page, 'Save and go on');
      const goOn = page.getByRole('link', { name: /go on with the questions/ });
      if ((await goOn.count()) > 0) await goOn.click();
    }
    await look(page, 'review');
    await page.getByRole('link', { name: 'Change: A ride recording' }).click();
    await look(page, 'ride');
    await press(page, 'Send the recording');
    await look(page, 'ride-wrong');
    const startsAt = new Date(Date.now() + 3_600_000);
    const buffer = Buffer.from(steadyRide({ startsAt, minutes: 21, powerW: 250 }));
    const name = 'Feierabendrunde-Mittelgebirgsüberquerung.csv';
    await page.locator('input[type=file]').setInputFiles({ name, mimeType: 'text/csv', buffer });
    await press(page, 'Send the recording');
    await look(page, 'ride-sent');
    await page.getByRole('link', { name: 'Back to my answers' }).click();
    await press(page, 'Hand in my answers');
    await look(page, 'done');
    expect(await heading(page)).toMatch(/^Your answers are with/);
    await page.goto(url);
    await look(page, 'answered');
  }, 120_000);

  it('can be walked without script', async () => {
    const url = await newLink('Ride out of the saddle');
    const page = await (await browser.newContext({ viewport: phone, javaScriptEnabled: false })).newPage();
    await page.goto(url);
    await press(page, 'Start');
    for (let at = 1; (await heading(page)) !== 'Check your answers'; at += 1) {
      expect(at).toBeLessThan(15);
      for (const no of await page.locator('input[type=radio][value=no]').all()) await no.check();
      for (const none of await page.locator('input[type=checkbox][value="-none"]').all()) await none.check();
      await press(page, 'Save and go on');
    }
    await press(page, 'Hand in my answers');
    expect(await heading(page)).toMatch(/^Your answers are with/);
  });
});
