import { html, type Html } from '@studio/documents';
import { layout, errorSummary } from '../intake-pages/index.js';
import { rideLimits } from './ride-reading.js';
import type { Ride } from './rides.queries.js';

const megabytes = rideLimits.sentBytes / 1024 ** 2;

/** Where a recording is sent, shown and taken back. `base` is the address of the link. */
export function ridePage(of: {
  studio: string;
  base: string;
  ride: Ride | null;
  error: string | null;
}): Html {
  const { studio, base, ride, error } = of;
  const title = 'A ride recording';
  return layout({
    title: error === null ? title : `Error: ${title}`,
    studio,
    body: html`<a class="lone" href="${base}/review">Back to my answers</a>
      ${error !== null && errorSummary([{ id: 'file', message: error }])}
      <h1>${title}</h1>
      <p>
        If you recorded a ride since your fit you can send it. Your best 20 minutes and your highest sprint
        are read from it. Only if you have one already: you need not ride hard for us.
      </p>
      <p>
        The recording is kept with your record at ${studio}, with the places where you rode if it holds them.
        The people who fit you can open it; the front desk cannot.
      </p>
      ${ride !== null && sent(ride, base)}
      <form method="post" action="${base}/ride" enctype="multipart/form-data" novalidate>
        <div class="${error === null ? 'field' : 'field wrong'}">
          <label class="label" for="file"
            >${ride === null ? 'The recording' : 'Another recording in its place'}</label
          >
          <p class="hint" id="file-hint">
            A file as your bike computer or training program saves it: FIT, TCX, GPX or CSV, also packed (zip,
            gz); at most ${megabytes} MB.
          </p>
          ${error !== null && html`<p class="error" id="file-error">${error}</p>`}
          <input
            type="file"
            id="file"
            name="file"
            accept=".fit,.tcx,.gpx,.csv,.zip,.gz"
            aria-describedby="file-hint${error !== null && ' file-error'}"
          />
        </div>
        <button type="submit">Send the recording</button>
      </form>`,
  });
}

function sent(ride: Ride, base: string): Html {
  return html`<h2>What was read from it</h2>
    <dl>
      ${rideRows(ride).map(
        ({ question, answer }) =>
          html`<div>
            <dt>${question}</dt>
            <dd>${answer}</dd>
          </div>`,
      )}
    </dl>
    ${
      ride.notes.length > 0 &&
      html`<ul>
        ${ride.notes.map((note) => html`<li>${note}</li>`)}
      </ul>`
    }
    <form method="post" action="${base}/ride/removal">
      <button class="second" type="submit">Take it back</button>
    </form>`;
}

/** As they stand among the answers. */
export function rideRows(ride: Ride | null): { question: string; answer: string }[] {
  if (ride === null) return [{ question: 'A recording of a ride since your fit', answer: 'None sent' }];
  const { fileName, power20MinWords, sprintPeakW } = ride;
  return [
    { question: 'File', answer: fileName },
    { question: 'Best 20 minutes', answer: power20MinWords },
    ...(sprintPeakW === null ? [] : [{ question: 'Highest second', answer: `${sprintPeakW.toFixed(0)} W` }]),
  ];
}
