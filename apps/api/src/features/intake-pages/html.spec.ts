import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { html } from './html.js';

describe('html', () => {
  it('lets no text become markup, in content or in a quoted attribute', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const { text: sent } = html`<p title="${text}">${text}</p>`;
        const [, attribute, content] = /^<p title="([^"]*)">([^<]*)<\/p>$/s.exec(sent) ?? [];
        const back = (part = ''): string =>
          part
            .replaceAll('&lt;', '<')
            .replaceAll('&gt;', '>')
            .replaceAll('&quot;', '"')
            .replaceAll('&#39;', "'")
            .replaceAll('&amp;', '&');
        expect([back(attribute), back(content)]).toEqual([text, text]);
      }),
    );
  });

  it('puts markup, lists and numbers in, and nothing for what is left out', () => {
    expect(
      html`<ul>
          ${[1, 2].map((item) => html`<li>${item}</li>`)}
        </ul>
        ${null}${false}`.text,
    ).toBe('<ul><li>1</li><li>2</li></ul>');
  });
});
