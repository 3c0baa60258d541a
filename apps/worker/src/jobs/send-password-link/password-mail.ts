/** What a person of the studio reads. */
export function passwordMail(options: {
  reason: 'invitation' | 'reset';
  displayName: string;
  studioName: string;
  link: string;
}): { subject: string; text: string } {
  const { reason, displayName, studioName, link } = options;
  const [subject, why] =
    reason === 'invitation'
      ? [
          `Your sign-in for ${studioName}`,
          `You can sign in to the records of ${studioName}. Choose a password first:`,
        ]
      : [
          'Choose another password',
          'Somebody, we hope you, asked to choose another password. It is done here:',
        ];
  return {
    subject,
    text: `Hello ${displayName},

${why}

${link}

The link is yours alone and works once. If you did not expect this mail, leave it: nothing changes.

${studioName}
`,
  };
}
