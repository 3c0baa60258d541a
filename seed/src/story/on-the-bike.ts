import { dataOf, type components } from '@studio/api-client';
import type { Booked } from './at-the-desk.js';
import { refused, type Studio } from './studio.js';
import { holds, mm, say, signed } from './tell.js';

type Option = components['schemas']['CleatOptionResponse'];

/** The whole visit: screening respected, measured, planned, changed, signed. */
export async function fit({ fitter }: Studio, { rider, clientId, appointmentId }: Booked): Promise<string> {
  const { givenName } = rider.client;
  const client = { params: { path: { clientId } } };
  const { id: bikeId } = await dataOf(
    fitter.POST('/v1/clients/{clientId}/bikes', { ...client, body: rider.bike }),
  );
  const { id: shoeId } = await dataOf(
    fitter.POST('/v1/clients/{clientId}/shoes', { ...client, body: rider.shoe }),
  );
  const opening = { body: { clientId, bikeId, shoeId, appointmentId } };

  if (rider.clearance) {
    const barred = await refused(dataOf(fitter.POST('/v1/fit-sessions', opening)));
    holds('a finding that forbids riding keeps the session shut', barred.code === 'screenings.not-permitted');
    const [screening] = await dataOf(fitter.GET('/v1/clients/{clientId}/screenings', client));
    const raised = screening?.findings.find(({ result }) => result === 'raised');
    holds('the fitter sees the finding', screening !== undefined && raised !== undefined);
    say(`${givenName} may not ride yet: ${raised.messageForStaff}`);
    await dataOf(
      fitter.POST('/v1/screenings/{screeningId}/clearance', {
        params: { path: { screeningId: screening.id } },
        body: rider.clearance,
      }),
    );
    say(`Days later a clearance is recorded, with its reason and who gave it.`);
  }

  const { id: fitSessionId } = await dataOf(fitter.POST('/v1/fit-sessions', opening));
  const session = { params: { path: { fitSessionId } } };
  await dataOf(fitter.PUT('/v1/fit-sessions/{fitSessionId}/baseline', { ...session, body: rider.baseline }));
  for (const side of ['left', 'right'] as const) {
    for (const measurement of rider.measured) {
      await dataOf(
        fitter.POST('/v1/fit-sessions/{fitSessionId}/measurements', {
          ...session,
          body: { ...measurement, side },
        }),
      );
    }
  }
  await putPosition(fitter, fitSessionId, 'found', rider.found);

  let chosen: Option | undefined;
  for (const side of ['left', 'right'] as const) {
    const plan = await dataOf(
      fitter.POST('/v1/fit-sessions/{fitSessionId}/cleat-plans', { ...session, body: { side } }),
    );
    if (side === 'left') tellPlan(givenName, plan);
    const choice = { params: { path: { cleatPlanId: plan.id } }, body: rider.decision };
    await dataOf(fitter.POST('/v1/cleat-plans/{cleatPlanId}/choice', choice));
    chosen = plan.options.find(({ way }) => way === rider.decision.way);
  }
  holds('the chosen option is in the plan', chosen !== undefined);

  // A saddle is set to whole millimetres, so what is left differs a little from what was predicted.
  const lowering = Math.round(chosen.saddleHeightChangeMm.value);
  await putPosition(fitter, fitSessionId, 'left', {
    ...rider.found,
    saddleHeightMm: rider.found.saddleHeightMm + lowering,
    cleatBehindMth1LeftMm: chosen.behindMth1Mm,
    cleatBehindMth1RightMm: chosen.behindMth1Mm,
  });
  const left = await dataOf(fitter.POST('/v1/fit-sessions/{fitSessionId}/sign-off', session));
  say(
    `Chosen: ${words(chosen.way)} — “${rider.decision.because}” Saddle ${signed(lowering)} mm, bars with it. ` +
      `Signed; asked again on ${left.followUps.map(({ dueAt }) => dueAt.slice(0, 10)).join(' and ')}.`,
  );
  const late = await refused(
    dataOf(fitter.PUT('/v1/fit-sessions/{fitSessionId}/baseline', { ...session, body: rider.baseline })),
  );
  holds('a signed session is final', late.code === 'fit-sessions.signed');
  return fitSessionId;
}

function tellPlan(givenName: string, plan: components['schemas']['CleatPlanResponse']): void {
  const { behindMth1Mm, shortOfMidfootMm } = plan.now;
  say(
    `${givenName}'s cleat is ${mm(behindMth1Mm)} behind the first metatarsal head and ${mm(shortOfMidfootMm)} short of ` +
      `midfoot (${mm(plan.midfootFromHeelMm)} from the heel). The ways back:`,
  );
  for (const option of plan.options) {
    const { value, sd } = option.saddleHeightChangeMm;
    const result = option.feasible
      ? `${mm(option.movesBackMm)} back, ${mm(option.shortOfMidfootMm)} short; saddle ${signed(value)} ± ${(2 * sd).toFixed(1)} mm, ` +
        `calf lever ${(100 * option.ankleMomentRatio).toFixed(0)} %`
      : `not for this shoe: ${option.reasons.map(({ text }) => text).join(' ')}`;
    say(`  ${words(option.way)}: ${result}`);
  }
}

async function putPosition(
  fitter: Studio['fitter'],
  fitSessionId: string,
  stage: 'found' | 'left',
  body: components['schemas']['PositionRequest'],
): Promise<void> {
  await dataOf(
    fitter.PUT('/v1/fit-sessions/{fitSessionId}/positions/{stage}', {
      params: { path: { fitSessionId, stage } },
      body,
    }),
  );
}

const words = (id: string): string => id.replaceAll('_', ' ');
