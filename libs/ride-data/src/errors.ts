export type RideDataErrorCode =
  | 'ride.too-large'
  | 'ride.too-many-entries'
  | 'ride.too-long'
  | 'ride.several-recordings'
  | 'ride.unknown-format'
  | 'ride.unsafe-xml'
  | 'ride.cut-short'
  | 'ride.damaged'
  | 'ride.bad-value'
  | 'ride.no-time'
  | 'ride.empty'
  | 'ride.clock-unusable';

/** A recording that is refused. The message is plain enough to show to whoever sent it. */
export class RideDataError extends Error {
  override readonly name = 'RideDataError';

  constructor(
    readonly code: RideDataErrorCode,
    message: string,
    options?: ErrorOptions,
  ) {
    super(message, options);
  }
}
