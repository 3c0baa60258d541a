import { isAftermath } from './postgres-errors.js';

/**
 * Work whose statements do not wait for each other, so that they share messages to the server: PostgreSQL still runs them
 * one after another, in the order in which they were sent. All of it has ended when this returns, so that nothing is
 * sent on after a failure.
 *
 * @throws the first failure, in the order of `works`
 */
export async function together<const Works extends readonly Promise<unknown>[]>(
  works: Works,
): Promise<{ -readonly [Index in keyof Works]: Awaited<Works[Index]> }> {
  const failures = (await Promise.allSettled(works)).flatMap((end) =>
    end.status === 'rejected' ? [{ reason: end.reason as unknown }] : [],
  );
  const first = failures.find(({ reason }) => !isAftermath(reason)) ?? failures[0];
  if (first) throw first.reason;
  return (await Promise.all(works)) as { -readonly [Index in keyof Works]: Awaited<Works[Index]> };
}
