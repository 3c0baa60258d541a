import { dataOf, signIn } from '@studio/api-client';
import { demoStaff, demoStudio } from '../demo-studio.js';
import { refused, type Studio } from './studio.js';
import { holds, say } from './tell.js';

/** The owner vouches for the fitter, who records an examination; what it came to is shown to clinicians only. */
export async function whoSeesWhat(apiUrl: string, { owner, desk, fitter }: Studio, clientId: string) {
  const of = { params: { path: { clientId } } };
  const { code } = await refused(dataOf(desk.GET('/v1/clients/{clientId}/screenings', of)));
  holds('the front desk sees no medical text', code === 'access.not-allowed');

  await dataOf(
    owner.POST('/v1/staff/{staffId}/clinician-marks', {
      params: { path: { staffId: fitter.signedIn.id } },
      body: { registration: 'Register of physiotherapists, 00000', checkedOn: '2026-01-02' },
    }),
  );
  const [{ email, password }] = demoStaff;
  const clinician = await signIn(apiUrl, { studio: demoStudio.handle, email, password });
  const scores = '/v1/clients/{clientId}/clinician-scores';
  const body = { exerciseIndex: { restIndex: 1.02, afterIndex: 0.98 } };
  const { result } = await dataOf(clinician.POST(scores, { ...of, body }));
  const [seen] = await dataOf(owner.GET(scores, of));
  holds('a clinician sees what a score came to, an owner does not', !!result && !!seen && !seen.result);
  say(
    `The front desk asks what was found, and is refused. ${seen.clinicianName}, vouched for as a physiotherapist, records an ` +
      'examination: the owner sees that it was done, clinicians what it came to.',
  );
}
