import { createHash } from 'node:crypto';
import { Html } from '@studio/documents';

/** The whole look of the pages: no picture, no font file, nothing that moves. */
const style = `
:root { color-scheme: light; --ink: #16202a; --soft: #44525f; --line: #6b7885; --paper: #ffffff; --tint: #eef3f6;
  --strong: #0b4f71; --alarm: #a3140c; --focus: #ffbf1f; }
* { box-sizing: border-box; }
html { font-size: 100%; -webkit-text-size-adjust: 100%; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 1.0625rem/1.5 system-ui, sans-serif;
  overflow-wrap: break-word; }
header, main, footer { max-width: 40rem; margin: 0 auto; padding: 0 1rem; }
header { padding-top: 1rem; color: var(--soft); }
header p { margin: 0; }
main { padding-top: 1rem; padding-bottom: 2rem; }
footer { padding-top: 1rem; padding-bottom: 2rem; border-top: 1px solid var(--line); color: var(--soft); }
h1 { font-size: 1.625rem; line-height: 1.25; margin: 0.5rem 0 1rem; }
h2 { font-size: 1.25rem; line-height: 1.3; margin: 2rem 0 0.75rem; }
p, ul { margin: 0 0 1rem; }
dl + p { margin-top: 1rem; }
ul { padding-left: 1.25rem; }
a { color: var(--strong); text-underline-offset: 0.15em; }
.skip { position: absolute; left: -100rem; }
.skip:focus { left: 1rem; top: 0.5rem; background: var(--paper); padding: 0.5rem; }
.lone { display: inline-block; padding: 0.5rem 0; }
.hint { color: var(--soft); margin: 0 0 0.75rem; }
form > fieldset, .field { border: 0; padding: 0; margin: 0 0 2rem; min-width: 0; }
legend, .label { display: block; padding: 0; margin: 0 0 0.5rem; font-weight: 600; }
/* Inside its fieldset like anything else, and not on the border. */
legend { float: left; width: 100%; }
legend + * { clear: both; }
fieldset fieldset { border: 0; padding: 0; margin: 1rem 0 0; min-width: 0; }
fieldset fieldset legend { font-weight: 400; color: var(--soft); }
.choice { display: flex; align-items: flex-start; gap: 0.75rem; padding: 0.5rem 0; }
.choice input { flex: none; width: 1.75rem; height: 1.75rem; margin: 0; accent-color: var(--strong); }
.choice label { flex: 1; min-width: 0; padding: 0.125rem 0; }
.sites { display: grid; grid-template-columns: 1fr 1fr; column-gap: 0.75rem; }
.sites .whole { grid-column: 1 / -1; }
.or { margin: 0.5rem 0 0; color: var(--soft); }
.entry { display: flex; align-items: center; gap: 0.5rem; }
input[type=text], input[type=password], input[type=date], textarea { font: inherit; color: inherit; background: var(--paper);
  border: 2px solid var(--line); border-radius: 0.25rem; padding: 0.5rem; min-height: 2.75rem; max-width: 100%; }
input[type=text] { width: 8rem; }
input.wide { width: 100%; }
input[readonly] { background: var(--tint); border-color: transparent; }
textarea { display: block; width: 100%; min-height: 6rem; resize: vertical; }
button, .button { font: inherit; font-weight: 600; display: inline-block; cursor: pointer; border: 2px solid transparent;
  border-radius: 0.25rem; padding: 0.75rem 1.5rem; min-height: 3rem; background: var(--strong); color: #ffffff;
  text-decoration: none; }
button.second { background: var(--paper); color: var(--strong); border-color: var(--strong); margin-top: 1rem; }
/* Of a date one of its parts has the focus, not the field. */
:focus-visible, .summary:focus, input[type=date]:focus-within { outline: 3px solid var(--ink); outline-offset: 2px;
  box-shadow: 0 0 0 3px var(--paper), 0 0 0 8px var(--focus); }
.wrong { border-left: 4px solid var(--alarm); padding-left: 1rem; }
.error { color: var(--alarm); font-weight: 600; margin: 0 0 0.5rem; }
.summary { border: 3px solid var(--alarm); border-radius: 0.25rem; padding: 1rem 1rem 0; margin: 0 0 2rem; }
.summary h2, .alarm h2 { margin-top: 0; }
.summary ul { list-style: none; padding: 0; }
.summary a { color: var(--alarm); display: block; padding: 0.5rem 0; }
.alarm { border: 3px solid var(--alarm); background: #fdf1f0; border-radius: 0.25rem; padding: 1rem 1rem 0;
  margin: 0 0 1.5rem; }
.advice { background: var(--tint); border-left: 4px solid var(--strong); padding: 1rem; margin: 0 0 1.5rem; }
.advice :last-child, .alarm :last-child { margin-bottom: 0; }
.alarm { padding-bottom: 1rem; }
dl { margin: 0; }
dl div { border-bottom: 1px solid #c3ccd3; padding: 0.75rem 0; }
dt { color: var(--soft); }
dd { margin: 0.25rem 0 0; font-weight: 600; white-space: pre-line; }
@media (forced-colors: active) { :focus-visible, .summary:focus, input[type=date]:focus-within { outline: 3px solid; } }
@media print { .skip, button, .lone { display: none; } }
`;

/** Put in whole: the policy allows exactly these characters. */
export const styleElement = new Html(`<style>${style}</style>`);

/** Allows this style and the page's own form, and nothing else: no script, no picture, no frame. */
export const contentSecurityPolicy = [
  "default-src 'none'",
  `style-src 'sha256-${createHash('sha256').update(style).digest('base64')}'`,
  "form-action 'self'",
  "base-uri 'none'",
  "frame-ancestors 'none'",
].join('; ');
