/** What the client reads: no name of a complaint, since mail travels in the open. */
export function intakeMail(options: { givenName: string; studioName: string; link: string }): {
  subject: string;
  text: string;
} {
  const { givenName, studioName, link } = options;
  return {
    subject: 'Some questions before your bike fit',
    text: `Hello ${givenName},

please answer these questions before your bike fit. You can stop and go on later by the same link:

${link}

The link is yours alone; please do not pass it on. If something worries you, do not wait for us: see a doctor, and in
an emergency call your local emergency number.

${studioName}
`,
  };
}
