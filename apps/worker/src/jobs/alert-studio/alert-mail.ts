/** Who and why is read after signing in: mail travels in the open. */
export function alertMail(options: { studioName: string; referralId: string; publicUrl: string }): {
  subject: string;
  text: string;
} {
  const { studioName, referralId, publicUrl } = options;
  return {
    subject: 'Urgent: a client needs you now',
    text: `A client of ${studioName} gave answers that cannot wait.

Sign in now, open this case, and call the client today:

${publicUrl}/v1/referrals/${referralId}

The client was told what to do when they gave the answers at the screen; do not rely on it.
`,
  };
}
