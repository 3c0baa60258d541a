import { setTimeout as sleep } from 'node:timers/promises';

/** @typedef {{ heapMb: number, residentMb: number, lagMs: number, waiting: number }} Sample */

/**
 * Looks at the API's metrics every second until told to stop.
 *
 * @param {string} metricsUrl
 * @returns {{ stop: () => Promise<Sample[]> }}
 */
export function watch(metricsUrl) {
  /** @type {Sample[]} */
  const samples = [];
  let watching = true;
  const watched = (async () => {
    while (watching) {
      samples.push(sampleOf(await (await fetch(metricsUrl)).text()));
      await sleep(1000);
    }
  })();
  return {
    stop: async () => {
      watching = false;
      await watched;
      return samples;
    },
  };
}

/** @param {string} text in Prometheus' format */
function sampleOf(text) {
  /** @param {string} name */
  const sum = (name) =>
    [...text.matchAll(new RegExp(`^${name}(?:\\{[^}]*\\})? (\\S+)$`, 'gm'))].reduce(
      (total, [, value]) => total + Number(value),
      0,
    );
  return {
    heapMb: sum('nodejs_heap_size_used_bytes') / 2 ** 20,
    residentMb: sum('process_resident_memory_bytes') / 2 ** 20,
    lagMs: sum('nodejs_eventloop_lag_p99_seconds') * 1000,
    waiting: sum('studio_database_waiting'),
  };
}
