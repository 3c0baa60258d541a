import { runningServices } from './running-services.mjs';

export default async function globalTeardown() {
  await runningServices.stop?.();
}
