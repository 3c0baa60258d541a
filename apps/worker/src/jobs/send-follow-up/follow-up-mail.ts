import { timeSince } from '@studio/follow-up-plans';

/** What the client reads. No finding, no measurement: mail travels in the open. */
export function followUpMail(options: {
  givenName: string;
  studioName: string;
  daysAfter: number;
  link: string;
}): {
  subject: string;
  text: string;
} {
  const { givenName, studioName, daysAfter, link } = options;
  const ago = timeSince(daysAfter);
  return {
    subject: `How is your new position, ${ago} on?`,
    text: `Hello ${givenName},

your bike was fitted ${ago} ago. Please tell us how it goes; it takes three minutes:

${link}

The link is yours alone and works once. If something worries you, do not wait for us: see a doctor, and in an
emergency call your local emergency number.

${studioName}
`,
  };
}
