import { html, type Html } from '@studio/documents';
import { longestPassword, shortestPassword } from '../../http/passwords.js';
import { InvalidRequest } from '../../http/problem.js';
import { errorSummary, layout, type Form } from '../intake-pages/index.js';

/** Whose password a link is for. */
export interface LinkedAccount {
  readonly studio: string;
  /** What the person types beside the address to sign in. */
  readonly handle: string;
  readonly email: string;
}

/** What is wrong with what was typed, by field. */
export interface Wrong {
  readonly field: 'password' | 'again';
  readonly message: string;
}

/** Null when the password was chosen. What was typed is never shown again. */
export async function wrongWith(
  { password, again }: Form,
  choose: (password: string) => Promise<void>,
): Promise<Wrong | null> {
  if (typeof password !== 'string' || password === '')
    return { field: 'password', message: 'Type a password.' };
  if (password.length > longestPassword) {
    return {
      field: 'password',
      message: `The password must have at most ${String(longestPassword)} characters.`,
    };
  }
  if (again !== password) return { field: 'again', message: 'The two are not the same.' };
  try {
    await choose(password);
    return null;
  } catch (error) {
    if (!(error instanceof InvalidRequest)) throw error;
    return { field: 'password', message: `The password ${error.errors[0]?.message ?? 'is not good'}.` };
  }
}

export function choosePage(account: LinkedAccount, link: string, wrong: Wrong | null = null): Html {
  const { studio, email } = account;
  const title = 'Choose a password';
  return layout({
    title: wrong ? `Error: ${title}` : title,
    studio,
    forStaff: true,
    body: html`${wrong && errorSummary([{ id: wrong.field, message: wrong.message }])}
      <h1>${title}</h1>
      <form method="post" action="/choose-password/${link}" novalidate>
        <div class="field">
          <label class="label" for="email">Your address</label>
          <input class="wide" type="text" id="email" autocomplete="username" value="${email}" readonly />
        </div>
        ${typed('password', 'Password', wrong, [
          `At least ${String(shortestPassword)} characters; four or five words that have nothing to do with each other are good.`,
          'No rule about which characters. Not your name or the studio’s, and none that is guessed first.',
        ])}
        ${typed('again', 'The same again', wrong)}
        <p class="hint">Wherever you are signed in now, this signs you out.</p>
        <button type="submit">Choose this password</button>
      </form>`,
  });
}

export const chosenPage = ({ studio, handle, email }: LinkedAccount): Html =>
  layout({
    title: 'Your password is chosen',
    studio,
    forStaff: true,
    body: html`<h1>Your password is chosen</h1>
      <p>From now on you sign in with it, as ${email} of the studio “${handle}”.</p>
      <p>You can close this page. The link is used up.</p>`,
  });

function typed(
  name: Wrong['field'],
  label: string,
  wrong: Wrong | null,
  hints: readonly string[] = [],
): Html {
  const message = wrong?.field === name ? wrong.message : null;
  const described = [hints.length > 0 && `${name}-hint`, message !== null && `${name}-error`].filter(Boolean);
  return html`<div class="${message === null ? 'field' : 'field wrong'}">
    <label class="label" for="${name}">${label}</label>
    ${hints.length > 0 && html`<div class="hint" id="${name}-hint">${hints.map((hint) => html`<p>${hint}</p>`)}</div>`}
    ${message !== null && html`<p class="error" id="${name}-error">${message}</p>`}
    <input
      class="wide"
      type="password"
      id="${name}"
      name="${name}"
      autocomplete="new-password"
      spellcheck="false"
      ${described.length > 0 && html` aria-describedby="${described.join(' ')}"`}
      ${message !== null && html` aria-invalid="true"`}
    />
  </div>`;
}
