import { html, type Html } from '@studio/documents';

/** What is wrong, at the top of the page, each leading to its field; it takes the focus without any script. */
export function errorSummary(errors: readonly { id: string; message: string }[]): Html {
  return html`<div class="summary" role="alert" aria-labelledby="summary-title" tabindex="-1" autofocus>
    <h2 id="summary-title">There is a problem</h2>
    <ul>
      ${errors.map(({ id, message }) => html`<li><a href="#${id}">${message}</a></li>`)}
    </ul>
  </div>`;
}
