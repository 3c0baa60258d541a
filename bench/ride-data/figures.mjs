import { readRide } from '@studio/ride-data';
import { inTurn, perCall } from '../figures.mjs';

const seconds = 6 * 3600;
const header = 'time,power_w,cadence_rpm,heart_rate_bpm,speed_mps,altitude_m';
const begins = Date.UTC(2026, 4, 1, 8);
const csv = [
  header,
  ...Array.from({ length: seconds }, (_, second) =>
    [new Date(begins + second * 1000).toISOString(), 150 + (second % 90), 85, 140, 8.5, 400].join(','),
  ),
].join('\n');
const bytes = Buffer.from(csv);

/** The least that reads the numbers: no checks, nothing kept but columns. */
function bareParse() {
  const columns = [[], [], [], [], [], []];
  for (const line of bytes.toString().split('\n').slice(1)) {
    const cells = line.split(',');
    for (let i = 0; i < 6; i += 1) {
      columns[i]?.push(/** @type {never} */ (i === 0 ? Date.parse(cells[i] ?? '') : Number(cells[i])));
    }
  }
  return columns[0]?.length;
}

/**
 * Six hours at a record a second, read and repaired, against splitting the text into numbers.
 *
 * @param {{ rounds: number, burstMs: number }} length
 * @returns {Promise<import('../figures.mjs').Figure[]>}
 */
export async function rideDataFigures({ rounds, burstMs }) {
  const { samples } = await readRide([bytes]);
  if (samples.length !== seconds) throw new Error(`read ${samples.length} of ${seconds} seconds`);
  const { read, bare } = await inTurn(rounds, {
    read: () => perCall(burstMs, async () => (await readRide([bytes])).samples.length),
    bare: () => perCall(burstMs, bareParse),
  });
  return [
    {
      figure: 'a ride of six hours, CSV',
      measured: { name: 'readRide', unit: 'µs', rounds: read },
      baseline: { name: 'bare split', unit: 'µs', rounds: bare },
      atMost: 15,
    },
  ];
}
