/** A ride of steady power as CSV, one line a second. */
export function steadyRide(of: { startsAt: Date; minutes: number; powerW: number }): string {
  const { startsAt, minutes, powerW } = of;
  const lines = Array.from(
    { length: minutes * 60 },
    (_, second) => `${new Date(startsAt.getTime() + second * 1000).toISOString()},${powerW},88`,
  );
  return ['time,power_w,cadence_rpm', ...lines].join('\n');
}

export interface SentRide {
  readonly status: number;
  readonly html: string;
}

/** Sends a file as the page of a follow-up does, and follows to the page that answers. */
export async function sendRide(
  pages: string,
  content: string | Buffer,
  name = 'ride.csv',
): Promise<SentRide> {
  const form = new FormData();
  form.set('file', new Blob([content]), name);
  const response = await fetch(`${pages}/ride`, { method: 'POST', body: form });
  return { status: response.status, html: await response.text() };
}
