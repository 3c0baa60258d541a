// Exit code 0 when the address in the first argument answers well: for health checks of containers, which have no curl.
const answer = await fetch(process.argv[2] ?? '', { signal: AbortSignal.timeout(4000) }).catch(() => null);
process.exitCode = answer?.ok === true ? 0 : 1;
