import { dataOf } from '@studio/api-client';
import type { Rider } from './riders.js';
import { refused, type Studio } from './studio.js';
import { holds, say } from './tell.js';

export interface Booked {
  readonly rider: Rider;
  readonly clientId: string;
  readonly appointmentId: string;
}

/** Take a rider on, with consents; book; hand in the intake. */
export async function takeOn(studio: Studio, rider: Rider, startsAt: Date): Promise<Booked> {
  const { desk, fitter, serviceId, roomId } = studio;
  const { id: clientId, givenName } = await dataOf(desk.POST('/v1/clients', { body: rider.client }));
  for (const kind of ['data', 'health_data', 'contact'] as const) {
    const path = { clientId };
    await dataOf(
      desk.POST('/v1/clients/{clientId}/consents', {
        params: { path },
        body: { kind, textVersion: '2026-01' },
      }),
    );
  }
  const wish = {
    clientId,
    serviceId,
    roomId,
    fitterId: fitter.signedIn.id,
    startsAt: startsAt.toISOString(),
  };

  // Two at the desk press the button at the same moment.
  const calls = [
    desk.POST('/v1/appointments', { body: wish }),
    desk.POST('/v1/appointments', { body: wish }),
  ];
  const outcomes = await Promise.all(calls);
  const booked = outcomes.find(({ data }) => data)?.data;
  const taken = outcomes.find(({ error }) => error);
  holds('of two bookings of one hour one is made', booked !== undefined && taken?.response.status === 409);
  const clash = await refused(dataOf(desk.POST('/v1/appointments', { body: wish })));
  holds('the other is told the time is taken', clash.code === 'appointments.overlap');
  say(`${givenName} is booked for ${booked.startsAt}. A second try at the same hour: “${clash.message}”`);

  const { notice } = await dataOf(
    desk.POST('/v1/clients/{clientId}/screenings', {
      params: { path: { clientId } },
      body: { questionSetId: 'rider-intake', questionSetVersion: '2', answers: rider.intake },
    }),
  );
  say(`${givenName}'s answers are in. All the front desk is told: ${notice.replaceAll('_', ' ')}.`);
  return { rider, clientId, appointmentId: booked.id };
}
