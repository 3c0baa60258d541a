/**
 * When somebody has to wait before the next try (OWASP ASVS 5.0, 6.3.1). An address that failed waits; so does every
 * address that the account does not know, once many of them failed. One the account signed in from before never waits for
 * what others do, so nobody can lock the rightful out. House rule for the numbers; NIST SP 800-63B-4, 3.2.2 allows up to
 * 100 failures in a row.
 */
export const holdOffRules = {
  /** This address on this account, since it last signed in from there. */
  here: { failures: 5, minutes: 15 },
  /** All addresses on this account; counts only for one the account does not know. */
  account: { failures: 30, minutes: 60 },
  /** This address on all accounts of the studio; counts only for one the account does not know. */
  address: { failures: 30, minutes: 60 },
} as const;

export type HoldOffRule = keyof typeof holdOffRules;

/** For each rule the time of the failure that filled it, or null while it is not full. */
export type Filled = Readonly<Record<HoldOffRule, Date | null>> & { readonly known: boolean };

/** Whole seconds to wait from `now`; 0 is go on. */
export function secondsToWait(filled: Filled, now: Date): number {
  const rules: HoldOffRule[] = filled.known ? ['here'] : ['here', 'account', 'address'];
  const waits = rules.map((rule) => {
    const at = filled[rule];
    if (at === null) return 0;
    return Math.ceil((at.getTime() + holdOffRules[rule].minutes * 60_000 - now.getTime()) / 1000);
  });
  return Math.max(0, ...waits);
}
