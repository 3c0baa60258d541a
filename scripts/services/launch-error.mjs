/** Something the person at the keyboard can act on: shown as its message alone, without a stack. */
export class LaunchError extends Error {
  /** @override */
  name = 'LaunchError';
}
