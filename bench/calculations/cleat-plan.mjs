import { cleatPlan } from '@studio/fit-math';
import autocannon from 'autocannon';
import { step } from '../../scripts/services/step.mjs';
import { cleatPlanInput } from '../cleat-plan-input.mjs';
import { inTurn, perCall } from '../figures.mjs';
import { openForBench } from '../studio.mjs';

/**
 * A cleat plan with its errors through the whole API, against the library called in a process that does nothing else.
 *
 * @param {import('../../scripts/services/processes.mjs').Processes} processes
 * @param {{ rounds: number, seconds: number }} length
 * @returns {Promise<import('../figures.mjs').Figure[]>}
 */
export async function cleatPlanByApi(processes, { rounds, seconds }) {
  const { apiUrl, headers } = await openForBench(processes, { database: 'studio_bench_cleat_plan' });
  const url = `${apiUrl}/v1/calculations/cleat-plans`;
  const asked = {
    method: /** @type {const} */ ('POST'),
    headers: { ...headers, 'content-type': 'application/json' },
    body: JSON.stringify(cleatPlanInput),
  };
  const answer = await (await fetch(url, asked)).json();
  if (JSON.stringify(answer) !== JSON.stringify(cleatPlan(cleatPlanInput))) {
    throw new Error('the API and the library differ');
  }
  const contenders = {
    api: async () => {
      const { requests, non2xx, errors } = await autocannon({
        url,
        ...asked,
        connections: 2,
        duration: seconds,
      });
      if (non2xx + errors > 0) throw new Error(`${non2xx + errors} requests failed`);
      return requests.average;
    },
    library: async () => 1e6 / (await perCall(seconds * 1000, () => cleatPlan(cleatPlanInput))),
  };
  for (const warmUp of Object.values(contenders)) await warmUp();
  const values = await step('planning', () => inTurn(rounds, contenders));
  return [
    {
      figure: 'cleat plan with its errors, by API',
      measured: { name: 'API', unit: 'plans/s', rounds: values.api },
      baseline: { name: 'cleatPlan', unit: 'plans/s', rounds: values.library },
      aim: 0.6,
    },
  ];
}
