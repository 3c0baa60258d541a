const tries = 5;

/**
 * What the mail server has answered must be written down, or the mail goes out again; so a database that is away for a
 * few seconds is waited for.
 */
export async function untilWritten(work: () => Promise<void>, firstWaitMs = 500): Promise<void> {
  for (let attempt = 1; ; attempt += 1) {
    try {
      await work();
      return;
    } catch (error) {
      if (attempt === tries) throw error;
      await new Promise((resolve) => setTimeout(resolve, firstWaitMs * 2 ** (attempt - 1)));
    }
  }
}
