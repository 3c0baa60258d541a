import { html, type Html } from '@studio/documents';
import { errorSummary } from './error-summary.js';
import { layout } from './layout.js';
import type { Shown } from './shown.js';
import { firstIdOf, questionField } from './question-field.js';

/** The page for what is to be shown. `base` is the address of the link, without a slash at its end. */
export function render(shown: Shown, base: string): Html {
  const { studio } = shown;
  switch (shown.page) {
    case 'start':
      return layout({ title: titled(shown.title, shown.error !== null), studio, body: start(shown, base) });
    case 'questions':
      return layout({
        title: titled(
          `${shown.heading} – ${shown.title}`,
          shown.fields.some(({ error }) => error !== null),
        ),
        studio,
        body: questions(shown, base),
      });
    case 'urgent':
      return layout({ title: urgentHeading(shown), studio, body: urgent(shown, base) });
    case 'review':
      return layout({ title: `Check your answers – ${shown.title}`, studio, body: review(shown, base) });
    case 'done':
      return layout({ title: 'Your answers are with the studio', studio, body: done(shown) });
  }
}

const titled = (title: string, isWrong: boolean): string => (isWrong ? `Error: ${title}` : title);

type Of<Page extends Shown['page']> = Extract<Shown, { page: Page }>;

function start(
  { title, about, studio, needsConsent, begun, openUntil, error }: Of<'start'>,
  base: string,
): Html {
  return html`${error !== null && errorSummary([{ id: 'consent', message: error }])}
    <h1>${title}</h1>
    <p>${about}</p>
    <ul>
      <li>
        Every page you send is saved. You can stop at any time and go on by the same link, until ${openUntil}.
      </li>
      <li>“I don’t know” is an answer.</li>
      <li>At the end you see all your answers before you hand them in.</li>
      <li>
        These questions find out who should see a clinician first. They are no diagnosis, and no all-clear.
      </li>
    </ul>
    <form method="post" action="${base}/start" novalidate>
      ${
        needsConsent &&
        html`<div class="${error === null ? 'field' : 'field wrong'}">
          <h2>Your consent</h2>
          <p>
            Your answers about health are kept by ${studio}. The people who fit you read them; the front desk
            does not. You can take your consent back at any time by telling the studio.
          </p>
          ${error !== null && html`<p class="error" id="consent-error">${error}</p>`}
          <div class="choice">
            <input
              type="checkbox"
              id="consent"
              name="consent"
              value="yes"
              ${error !== null && html` aria-describedby="consent-error"`}
            /><label for="consent">I agree that ${studio} keeps and reads my answers about my health.</label>
          </div>
        </div>`
      }
      <button type="submit">${begun ? 'Go on' : 'Start'}</button>
    </form>`;
}

function questions(shown: Of<'questions'>, base: string): Html {
  const { id, heading, intro, part, parts, fields, back, isMore, isChange } = shown;
  const wrong = fields.flatMap(({ question, error }) =>
    error === null ? [] : [{ id: firstIdOf(question.key), message: `${question.text} ${error}` }],
  );
  return html`${back !== null && html`<a class="lone" href="${base}/${back}">Back</a>`}
    ${wrong.length > 0 && errorSummary(wrong)}
    <p class="hint">Part ${part} of ${parts}</p>
    <h1>${heading}</h1>
    ${isMore && html`<p>There is a little more to ask here.</p>`}
    ${!isMore && intro !== null && html`<p>${intro}</p>`}
    <form method="post" action="${base}/pages/${encodeURIComponent(id)}" novalidate>
      ${fields.map(({ question }) => html`<input type="hidden" name="asked" value="${question.key}" />`)}
      ${isChange && html`<input type="hidden" name="change" value="1" />`}
      ${fields.map(({ question, answer, error }) => questionField(question, { answer, error }))}
      <button type="submit">Save and go on</button>
    </form>`;
}

const urgentHeading = ({ isEmergency }: Pick<Of<'urgent'>, 'isEmergency'>): string =>
  isEmergency ? 'Call your local emergency number now' : 'See a doctor today';

function urgent(shown: Of<'urgent'>, base: string): Html {
  return html`<div class="alarm" role="alert">
      <h1>${urgentHeading(shown)}</h1>
      ${shown.advice.map((text) => html`<p>${text}</p>`)}
      <p>
        Do not ride, and do not wait for the studio to call. ${shown.studio} is being told that your answers
        are urgent.
      </p>
    </div>
    <p>
      Your answers are saved. If one of them was a slip you can go back and change it; the studio will still
      want to talk to you.
    </p>
    <p><a class="lone" href="${base}/${shown.back}">Back to my answers</a></p>
    <p><a class="lone" href="${base}/${shown.next}">I have done this: go on with the questions</a></p>`;
}

function review({ sections }: Of<'review'>, base: string): Html {
  return html`<h1>Check your answers</h1>
    <p>Nothing is handed in yet. Change what is not right.</p>
    ${sections.map(
      ({ change, heading, rows }) =>
        html`<h2>${heading}</h2>
          <dl>
            ${rows.map(
              ({ question, answer }) =>
                html`<div>
                  <dt>${question}</dt>
                  <dd>${answer}</dd>
                </div>`,
            )}
          </dl>
          <p>
            <a class="lone" href="${base}/${change}">Change: ${heading}</a>
          </p>`,
    )}
    <h2>Hand in</h2>
    <p>
      Once they are handed in you cannot change your answers by this link any more; tell the studio instead.
    </p>
    <form method="post" action="${base}/submit">
      <button type="submit">Hand in my answers</button>
    </form>`;
}

function done({ studio, isUrgent, advice, whatNext, caution }: Of<'done'>): Html {
  return html`<h1>Your answers are with ${studio}</h1>
    ${
      advice.length > 0 &&
      html`<div class="${isUrgent ? 'alarm' : 'advice'}" ${isUrgent && html` role="alert"`}>
        <h2>What you should do</h2>
        ${advice.map((text) => html`<p>${text}</p>`)}
      </div>`
    }
    <p>${whatNext}</p>
    <p>${caution}</p>
    <p>You can close this page. The link is used up.</p>`;
}
