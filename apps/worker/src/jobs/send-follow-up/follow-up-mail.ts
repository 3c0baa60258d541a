/** What the client reads. No finding, no measurement: mail travels in the open. */
export function followUpMail(options: {
  givenName: string;
  studioName: string;
  week: number;
  link: string;
}): {
  subject: string;
  text: string;
} {
  const { givenName, studioName, week, link } = options;
  return {
    subject: `How is your new position, ${week} weeks on?`,
    text: `Hello ${givenName},

your bike was fitted ${week} weeks ago. Please tell us how it goes; it takes three minutes:

${link}

The link is yours alone and works once. If something worries you, do not wait for us: see a doctor, and in an
emergency call your local emergency number.

${studioName}
`,
  };
}
