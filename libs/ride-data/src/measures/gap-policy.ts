/** What a second without power counts as. Results carry the policy they were made with. */
export interface GapPolicy {
  /**
   * Steps up to this long, without a stop of the device, are bridged by a straight line between their ends: devices
   * that save space record only when something changes. 1 = no bridging.
   */
  readonly bridgeStepsUpToS: number;
  /** Seconds without any record that were not bridged: riding at 0 W, or the end of what can be averaged over. */
  readonly unrecordedSeconds: 'are zero' | 'break the window';
  /** Seconds with a record but no power in it. */
  readonly powerlessSeconds: 'are zero' | 'are left out';
  /** Share of a window that must not be left out. 0–1. */
  readonly leastCounted: number;
}

/** Bridging of 10 s and counting of 95 % are house rules. */
export const gapPolicies = {
  /** One unbroken effort; the one to compare 20-minute power by. */
  uninterrupted: {
    bridgeStepsUpToS: 10,
    unrecordedSeconds: 'break the window',
    powerlessSeconds: 'are left out',
    leastCounted: 0.95,
  },
  /** Clock time: a stop is rest at 0 W. */
  stopsAreRest: {
    bridgeStepsUpToS: 10,
    unrecordedSeconds: 'are zero',
    powerlessSeconds: 'are left out',
    leastCounted: 0.95,
  },
  /** Whatever was not measured was 0 W: never too high. */
  unmeasuredIsZero: {
    bridgeStepsUpToS: 1,
    unrecordedSeconds: 'are zero',
    powerlessSeconds: 'are zero',
    leastCounted: 0,
  },
} as const satisfies Readonly<Record<string, GapPolicy>>;
