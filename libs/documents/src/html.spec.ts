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
    const parts = [html`<b>1</b>`, 2, ['&', null]];
    expect(html`<p>${parts}${null}${false}</p>`.text).toBe('<p><b>1</b>2&amp;</p>');
  });
});
