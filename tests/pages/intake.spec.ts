import { afterAll, afterEach, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf } from '@studio/api-client';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { browserProgram, openBrowser, shoot, sticksOut, violationsOn } from '../helpers/browser.js';
import { openIntake } from '../helpers/intake.js';
import { takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

const withBrowser = browserProgram === null ? describe.skip : describe;
const phone = { width: 360, height: 740 };

withBrowser('the intake pages in Chromium (left out where there is none)', () => {
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

  const openPage = async (options: BrowserContextOptions = {}): Promise<Page> =>
    (await browser.newContext(options)).newPage();
  afterEach(() => Promise.all(browser.contexts().map((context) => context.close())));

  const newLink = async (): Promise<{ clientId: string; url: string }> => {
    const { clientId } = await takeOnClient(studio.owner);
    return { clientId, url: `${api.url}${await openIntake(studio.desk, clientId)}` };
  };
  const heading = (page: Page): Promise<string> => page.locator('h1').innerText();
  const press = async (page: Page, name: string): Promise<void> => {
    await page.getByRole('button', { name }).click();
  };

  /** Answers what the page asks with "no", "none of these", the least number or a word. */
  async function answerHarmlessly(page: Page): Promise<void> {
    for (const no of await page.locator('input[type=radio][value=no]').all()) await no.check();
    for (const none of await page.locator('input[type=checkbox][value="-none"]').all()) await none.check();
    for (const unknown of await page.locator('input[type=checkbox][name$=".unknown"]').all())
      await unknown.check();
    const others = await page
      .locator('fieldset:not(:has(input:checked)) input[type=radio][value=unknown]')
      .all();
    for (const unknown of others) await unknown.check();
  }

  async function toTheReview(page: Page, look: (name: string) => Promise<void>): Promise<void> {
    for (let at = 1; (await heading(page)) !== 'Check your answers'; at += 1) {
      expect(at).toBeLessThan(60);
      const goOn = page.getByRole('link', { name: /go on with the questions/ });
      if ((await goOn.count()) > 0) {
        await goOn.click();
        continue;
      }
      await look(`page-${at}`);
      await answerHarmlessly(page);
      await press(page, 'Save and go on');
    }
  }

  it('have no violation by axe-core, and nothing sticks out on a phone, on every page', async () => {
    const { clientId, url } = await newLink();
    const health = { params: { path: { clientId, kind: 'health_data' as const } } };
    await studio.desk.POST('/v1/clients/{clientId}/consents/{kind}/withdrawal', health);
    const page = await openPage({ viewport: phone });
    const look = async (name: string): Promise<void> => {
      await shoot(page, name);
      expect([name, await violationsOn(page), await sticksOut(page)]).toEqual([name, [], false]);
    };

    await page.goto(url);
    await look('start');
    await press(page, 'Start');
    await look('start-wrong');
    await page.getByRole('checkbox').check();
    await press(page, 'Start');
    await press(page, 'Save and go on');
    await look('page-wrong');
    await page.goto(url);
    await press(page, 'Start');
    await toTheReview(page, look);
    await look('review');
    await press(page, 'Hand in my answers');
    await look('done');
    await page.goto(url);
    await look('handed-in');
    await page.goto(`${url.slice(0, -1)}-`);
    await look('unknown');
  }, 120_000);

  it('tell at once what to do about an urgent answer, with no violation', async () => {
    const { url } = await newLink();
    const page = await openPage({ viewport: phone, javaScriptEnabled: true });
    await page.goto(url);
    await press(page, 'Start');
    while ((await page.locator('input[name=chest_pain]').count()) === 0) {
      await answerHarmlessly(page);
      await press(page, 'Save and go on');
    }
    await answerHarmlessly(page);
    await page.locator('input[name=chest_pain][value=yes]').check();
    await press(page, 'Save and go on');
    expect(await heading(page)).toBe('Call your local emergency number now');
    await shoot(page, 'urgent');
    expect(await violationsOn(page)).toEqual([]);
    expect(await sticksOut(page)).toBe(false);

    await page.getByRole('link', { name: /go on with the questions/ }).click();
    await toTheReview(page, () => Promise.resolve());
    await press(page, 'Hand in my answers');
    await shoot(page, 'done-urgent');
    expect(await violationsOn(page)).toEqual([]);
    expect(await page.getByRole('alert').innerText()).toContain('emergency number');
  }, 120_000);

  it('can be walked by keyboard alone, without script; the focus is always seen, and errors take it', async () => {
    const { clientId, url } = await newLink();
    const page = await openPage({ javaScriptEnabled: false, viewport: phone });
    const focused = (): Promise<{ kind: string; outline: string }> =>
      page.evaluate(`(() => {
        const element = document.activeElement;
        const style = getComputedStyle(element);
        return { kind: element.type ?? element.className ?? '', outline: style.outlineStyle + ' ' + style.outlineWidth };
      })()`);
    const tab = async (): Promise<string> => {
      await page.keyboard.press('Tab');
      const { kind, outline } = await focused();
      if (kind !== '') expect([kind, outline]).toEqual([kind, expect.stringMatching(/^(solid|auto) [2-9]/)]);
      return kind;
    };
    /** Chooses the second of every group, and presses the button at the end. */
    const through = async (): Promise<void> => {
      for (let kind = await tab(); kind !== 'submit'; kind = await tab()) {
        if (kind === 'radio') await page.keyboard.press('ArrowDown');
        if (kind === 'checkbox' && (await isClosingBox(page))) await page.keyboard.press('Space');
      }
      await enter(page);
    };

    await page.goto(url);
    await through();
    // Sent with nothing answered: what is wrong takes the focus, and leads to the first field.
    await page.locator('button').focus();
    await enter(page);
    expect((await focused()).kind).toBe('summary');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    expect((await focused()).kind).toMatch(/radio|checkbox|text|date/);

    await page.goto(url);
    await through();
    for (let pages = 0; (await heading(page)) !== 'Check your answers'; pages += 1) {
      expect(pages).toBeLessThan(60);
      await through();
    }
    await through();
    expect(await heading(page)).toMatch(/^Your answers are with/);
    const of = { params: { path: { clientId } } };
    expect(await dataOf(studio.owner.GET('/v1/clients/{clientId}/screenings', of))).toHaveLength(1);
  }, 120_000);
});

/** Presses Enter on what sends the form, and waits for the page that answers it. */
async function enter(page: Page): Promise<void> {
  const answered = page.waitForEvent('domcontentloaded');
  await page.keyboard.press('Enter');
  await answered;
}

/** The box that says "none of these", or the "don't know" of a field that is typed into. */
const isClosingBox = (page: Page): Promise<boolean> =>
  page.evaluate(
    `document.activeElement.value === '-none' || document.activeElement.name.endsWith('.unknown')`,
  );
