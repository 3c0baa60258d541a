import { dataOf } from '@studio/api-client';
import type { Booked } from './at-the-desk.js';
import type { Studio } from './studio.js';
import { holds, say, signed } from './tell.js';

/** The rider's winter bike, set up from the position of the first without another visit. */
export async function setUpSecondBike(
  { fitter }: Studio,
  { rider, clientId }: Booked,
  fitSessionId: string,
): Promise<void> {
  const of = { params: { path: { clientId } } };
  const { shoeId } = await dataOf(
    fitter.GET('/v1/fit-sessions/{fitSessionId}', { params: { path: { fitSessionId } } }),
  );
  const bike = await dataOf(
    fitter.POST('/v1/clients/{clientId}/bikes', {
      ...of,
      body: {
        name: 'Winter bike',
        crankLengthMm: rider.bike.crankLengthMm - 5,
        seatTubeAngleDeg: 74,
        uses: ['training'],
      },
    }),
  );
  const pair = await dataOf(
    fitter.POST('/v1/clients/{clientId}/paired-positions', {
      ...of,
      body: {
        first: { fitSessionId, use: 'long_rides' },
        second: { bikeId: bike.id, shoeId, use: 'training' },
        ...{ side: 'right', otherwise: { gripsUpMm: 10 } },
        because: 'The same feet and hips on shorter cranks, the hands a little higher in the cold.',
      },
    }),
  );
  const { sideBySide, saddleChangeMm } = pair.result;
  const height = sideBySide.find(({ field }) => field === 'saddleHeightMm');
  holds('shorter cranks want a higher saddle', saddleChangeMm.value > 0 && height !== undefined);
  say(
    `${rider.client.givenName}'s winter bike has cranks 5 mm shorter: saddle ${signed(saddleChangeMm.value)} mm, to ` +
      `${(height.second ?? 0).toFixed(0)} mm along its own seat tube. It is written down beside the first.`,
  );
}
