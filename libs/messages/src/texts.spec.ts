import { describe, expect, it } from '@jest/globals';
import { messageTemplateNames } from '@studio/job-contracts';
import {
  checkText,
  chooseText,
  languageFor,
  languages,
  messageTemplates,
  placeholdersOf,
  preview,
  render,
} from './index.js';
import { fill, placeholdersIn } from './placeholders.js';

const confirmed = messageTemplates.appointment_confirmed;

describe.each(messageTemplateNames)('the standard text of %s', (name) => {
  const template = messageTemplates[name];

  it('is a right one in every language, and speaks of the same in each', () => {
    expect(template.name).toBe(name);
    const spokenOf = languages.map((language) => {
      const text = template.texts[language];
      expect([language, checkText(template, text)]).toEqual([language, []]);
      return new Set(placeholdersIn(text.body).filter((placeholder) => placeholder !== 'familyName'));
    });
    expect(spokenOf[1]).toEqual(spokenOf[0]);
  });

  it.each(languages)('can be previewed in %s, with a value for every placeholder', (language) => {
    const { subject, text, html } = preview(
      template,
      chooseText(template, language, []),
      'Europe/Copenhagen',
    );
    expect(`${subject}${text}${html}`).not.toMatch(/\{\{|\}\}|undefined|Invalid/);
    expect(html).toContain(`lang="${language}"`);
    expect(text.includes('/unsubscribe/')).toBe(template.unasked);
  });
});

describe('a text of a studio', () => {
  const text = { subject: 'On {{startsAt}}', body: 'Come on {{startsAt}}.' };

  it('is taken when it uses known placeholders and the needed ones', () => {
    expect(checkText(confirmed, text)).toEqual([]);
  });

  it.each([
    [{ ...text, body: 'Hello {{pain}}, {{startsAt}}' }, 'body', /knows no \{\{pain\}\}; possible: givenName/],
    [{ ...text, subject: 'See you', body: 'Come.' }, 'body', /must hold \{\{startsAt\}\}/],
    [{ ...text, subject: 'a\nBcc: everyone@riders.example' }, 'subject', /one line/],
    [{ ...text, subject: 'a\rb' }, 'subject', /control characters/],
    [{ ...text, subject: ' ' }, 'subject', /empty/],
    [{ ...text, body: 'On {{ startsAt }} {{startsAt}}' }, 'body', /braces/],
    [{ ...text, body: '{{constructor}} {{startsAt}}' }, 'body', /knows no \{\{constructor\}\}/],
  ])('%j is refused', (wrong, field, message) => {
    expect(checkText(confirmed, wrong)).toContainEqual({ field, message: expect.stringMatching(message) });
  });

  it('does not put a link with its secret into the subject', () => {
    const problems = checkText(messageTemplates.intake_link, { subject: '{{link}}', body: '{{link}}' });
    expect(problems).toEqual([{ field: 'subject', message: 'must not hold a link: {{link}}' }]);
  });
});

describe('the language', () => {
  it.each([
    ['de', 'en', 'de'],
    ['de-AT', 'en', 'de'],
    ['de-Latn-AT', 'en', 'de'],
    ['DE', 'en', 'de'],
    ['fr', 'de', 'de'],
    ['fr-CH', 'en', 'en'],
    [null, 'de', 'de'],
    ['den', 'en', 'en'],
  ] as const)('%s of the client, %s of the studio: %s', (client, studio, chosen) => {
    expect(languageFor(client, studio)).toBe(chosen);
  });

  it('decides before the wording: a studio that rewrote English alone writes German in our words', () => {
    const own = [{ language: 'en' as const, version: 4, subject: 'S', body: 'B' }];
    expect(chooseText(confirmed, 'en', own)).toMatchObject({ subject: 'S', textVersion: 'studio-4' });
    expect(chooseText(confirmed, 'de', own)).toMatchObject({
      language: 'de',
      textVersion: `standard-${confirmed.version}`,
    });
  });
});

describe('a message', () => {
  const values = {
    ...{ givenName: 'Robin', familyName: 'Rider', studioName: 'Harbour' },
    ...{ service: 'First fit', startsAt: '2026-03-29T00:30:00Z', fitter: 'Kim', place: 'Fit bay' },
  };
  const chosen = chooseText(confirmed, 'en', []);

  it('tells the time by the clock of the place, on either side of its change', () => {
    const at = (startsAt: string, timeZone: string): string =>
      render(confirmed, chosen, { values: { ...values, startsAt }, timeZone }).subject;
    expect(at('2026-03-29T00:30:00Z', 'Europe/Copenhagen')).toBe(
      'Your appointment on Sunday, 29 March 2026 at 01:30',
    );
    expect(at('2026-03-29T01:30:00Z', 'Europe/Copenhagen')).toMatch(/at 03:30$/);
    expect(at('2026-11-01T06:30:00Z', 'America/New_York')).toMatch(/Sunday, 1 November 2026 at 01:30$/);
    expect(at('2026-04-04T16:30:00Z', 'Australia/Sydney')).toMatch(/Sunday, 5 April 2026 at 02:30$/);
  });

  it('lets no value begin a header or a line of its own', () => {
    const evil = { ...values, service: 'Fit\r\nBcc: all@riders.example', givenName: 'A\u2028B\u0000C' };
    const { subject, text } = render(
      messageTemplates.reminder_two_days,
      chooseText(messageTemplates.reminder_two_days, 'en', []),
      { values: evil, timeZone: 'UTC' },
    );
    expect(subject).not.toMatch(/[\r\n]/);
    expect(subject).toContain('Fit Bcc: all@riders.example');
    expect(text).toContain('Hello A B C,');
    expect(text).not.toMatch(/^Bcc:/m);
  });

  it('escapes what it puts into HTML, and links nothing but whole lines that are addresses', () => {
    const intake = messageTemplates.intake_link;
    const { html } = render(intake, chooseText(intake, 'en', []), {
      values: { ...values, givenName: '<b onclick="x">&', link: 'https://fitting.example/i?a=1&b="2"' },
      timeZone: 'UTC',
    });
    expect(html).toContain('Hello &lt;b onclick=&quot;x&quot;&gt;&amp;,');
    expect(html).toContain('<a href="https://fitting.example/i?a=1&amp;b=&quot;2&quot;"');
    expect(html.match(/<a /g)).toHaveLength(1);
    expect(html).not.toMatch(/<(img|script|link|style)/);
  });

  it('is kept without its links', () => {
    const intake = messageTemplates.intake_link;
    const { kept, text } = render(intake, chooseText(intake, 'en', []), {
      values: { ...values, link: 'https://fitting.example/intake/secret' },
      timeZone: 'UTC',
    });
    expect(text).toContain('/intake/secret');
    expect(kept).not.toContain('secret');
    expect(kept).toContain('[link]');
  });

  it('leaves out the line of a placeholder without a value', () => {
    expect(fill('One\n\n{{link}}\n\nTwo {{link}}.', {})).toBe('One\n\nTwo .');
  });

  it('takes no value that the template does not know', () => {
    expect(placeholdersOf(messageTemplates.notice)).not.toHaveProperty('givenName');
    const text = { subject: 'x', body: '{{secret}}', language: 'en' as const, textVersion: 'studio-1' };
    expect(render(confirmed, text, { values: { secret: 's' }, timeZone: 'UTC' }).text.trim()).toBe('');
  });
});
