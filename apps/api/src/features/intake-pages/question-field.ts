import { takesDontKnow, type AskedQuestion, type BodySite, type BodyView } from '@studio/clinical-flags';
import { html, type Html } from '@studio/documents';
import { noneValue, unknownBox, unknownValue } from './read-form.js';

export interface FieldState {
  /** What is kept, or was just sent. */
  readonly answer: unknown;
  readonly error: string | null;
}

export const idOf = (key: string): string => `q-${key.replaceAll(/[^a-z0-9]+/gi, '-')}`;

/** The element a link of the error summary leads to: the first of the field that takes the focus. */
export const firstIdOf = (key: string): string => `${idOf(key)}-1`;

/** One question with its ways to answer, its help and what is wrong with the answer. */
export function questionField(question: AskedQuestion, state: FieldState): Html {
  switch (question.kind) {
    case 'yes_no':
      return group(question, state, [
        radio(question, state, 1, 'yes', 'Yes'),
        radio(question, state, 2, 'no', 'No'),
        takesDontKnow(question) && radio(question, state, 3, unknownValue, 'I don’t know'),
      ]);
    case 'one_of':
      return group(question, state, [
        question.options.map(({ id, label }, at) => radio(question, state, at + 1, id, label)),
        takesDontKnow(question) &&
          radio(question, state, question.options.length + 1, unknownValue, 'I don’t know'),
      ]);
    case 'several_of':
      return group(question, state, [
        question.options.map(({ id, label }, at) => box(question, state, at + 1, id, label)),
        closing(question, state, question.options.length, 'None of these'),
      ]);
    case 'body_sites':
      return group(question, state, [
        (['front', 'back'] as const).map((view) => sitesOf(question, state, view)),
        closing(question, state, question.sites.length, 'Nowhere'),
      ]);
    case 'number':
      return typed(
        question,
        state,
        html`<div class="entry">
          <input
            type="text"
            inputmode="${question.decimals ? 'decimal' : 'numeric'}"
            autocomplete="off"
            id="${firstIdOf(question.key)}"
            name="${question.key}"
            value="${typedText(state)}"
            ${describedBy(question, state)}
          />
          <span>${question.unit}</span>
        </div>`,
      );
    case 'date':
      return typed(
        question,
        state,
        html`<input
          type="date"
          id="${firstIdOf(question.key)}"
          name="${question.key}"
          value="${typedText(state)}"
          ${describedBy(question, state)}
        />`,
      );
    case 'text':
      return typed(
        question,
        state,
        html`<textarea
          id="${firstIdOf(question.key)}"
          name="${question.key}"
          maxlength="${question.maxLength}"
          rows="4"
          ${describedBy(question, state)}
        >
${typedText(state)}</textarea>`,
      );
  }
}

function group(question: AskedQuestion, state: FieldState, choices: Parameters<typeof html>[1]): Html {
  return html`<fieldset id="${idOf(question.key)}" ${wrongClass(state)}${describedBy(question, state)}>
    <legend>${question.text}</legend>
    ${notes(question, state)} ${choices}
  </fieldset>`;
}

function typed(question: AskedQuestion, state: FieldState, entry: Html): Html {
  const { key } = question;
  return html`<div class="${state.error === null ? 'field' : 'field wrong'}" id="${idOf(key)}">
    <label class="label" for="${firstIdOf(key)}">${question.text}</label>
    ${notes(question, state)} ${entry}
    ${
      takesDontKnow(question) &&
      html`<div class="choice">
        <input
          type="checkbox"
          id="${idOf(key)}-2"
          name="${unknownBox(key)}"
          value="1"
          ${checked(state.answer === unknownValue)}
        /><label for="${idOf(key)}-2">I don’t know</label>
      </div>`
    }
  </div>`;
}

function sitesOf(
  question: AskedQuestion & { readonly sites: readonly BodySite[] },
  state: FieldState,
  view: BodyView,
): Html {
  const sites = question.sites.filter((site) => site.view === view);
  return html`<fieldset>
    <legend>${view === 'front' ? 'Front of the body' : 'Back of the body'}</legend>
    <div class="sites">
      ${sites.map(
        (site) =>
          html`<div${site.side === null && html` class="whole"`}>${box(question, state, question.sites.indexOf(site) + 1, site.id, site.label)}</div>`,
      )}
    </div>
  </fieldset>`;
}

/** The last boxes of a list: that nothing of it applies, and that the client does not know. */
function closing(question: AskedQuestion, state: FieldState, after: number, none: string): Html {
  const isNone = Array.isArray(state.answer) && state.answer.length === 0;
  return html`<p class="or">or</p>
    ${choice('checkbox', question.key, after + 1, noneValue, none, isNone)}
    ${takesDontKnow(question) && choice('checkbox', question.key, after + 2, unknownValue, 'I don’t know', state.answer === unknownValue)}`;
}

const radio = (question: AskedQuestion, state: FieldState, at: number, value: string, label: string): Html =>
  choice('radio', question.key, at, value, label, state.answer === value);

const box = (question: AskedQuestion, state: FieldState, at: number, value: string, label: string): Html =>
  choice(
    'checkbox',
    question.key,
    at,
    value,
    label,
    Array.isArray(state.answer) && state.answer.includes(value),
  );

function choice(
  type: 'radio' | 'checkbox',
  key: string,
  at: number,
  value: string,
  label: string,
  isChosen: boolean,
): Html {
  const id = `${idOf(key)}-${at}`;
  return html`<div class="choice">
    <input type="${type}" id="${id}" name="${key}" value="${value}" ${checked(isChosen)} /><label for="${id}"
      >${label}</label
    >
  </div> `;
}

function notes({ key, help, licence }: AskedQuestion, { error }: FieldState): Html {
  return html`${help !== undefined && html`<p class="hint" id="${idOf(key)}-help">${help}</p>`}
  ${licence !== undefined && html`<p class="hint">${licence}</p>`}
  ${error !== null && html`<p class="error" id="${idOf(key)}-error">${error}</p>`}`;
}

function describedBy({ key, help }: AskedQuestion, { error }: FieldState): Html | false {
  const ids = [help !== undefined && `${idOf(key)}-help`, error !== null && `${idOf(key)}-error`].filter(
    (id) => id !== false,
  );
  return ids.length > 0 && html` aria-describedby="${ids.join(' ')}"`;
}

const wrongClass = ({ error }: FieldState): Html | false => error !== null && html` class="wrong"`;
const checked = (isChosen: boolean): Html | false => isChosen && html` checked`;

const typedText = ({ answer }: FieldState): string =>
  (typeof answer === 'string' || typeof answer === 'number') && answer !== unknownValue ? String(answer) : '';
