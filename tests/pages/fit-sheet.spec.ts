import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { buildFitSheet, fitSheetPage } from '@studio/fit-sheet';
import type { Browser } from 'playwright-core';
import { sheetFacts } from '../../libs/fit-sheet/src/testing/facts.js';
import { browserProgram, openBrowser, shoot, sticksOut, violationsOn } from '../helpers/browser.js';

const withBrowser = browserProgram === null ? describe.skip : describe;

withBrowser('the page of a fit sheet in Chromium (left out where there is none)', () => {
  let browser: Browser;

  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(() => browser.close());

  it.each([
    ['wide', 1000],
    ['phone', 360],
  ])('has no violation by axe-core, and nothing sticks out: %s', async (name, width) => {
    const page = await browser.newPage({ viewport: { width, height: 740 } });
    const sheet = buildFitSheet(sheetFacts(), { audience: 'studio', lengths: 'mm_and_inch', language: 'en' });
    await page.setContent(fitSheetPage(sheet));
    await shoot(page, `fit-sheet-${name}`);
    expect(await violationsOn(page)).toEqual([]);
    expect(await sticksOut(page)).toBe(false);
    expect(await page.locator('h1').innerText()).toBe('Fit record');
    expect(await page.locator('figure svg').count()).toBe(3);
  });
});
