/** SQL for an instant as the API writes it, like 2026-03-02T09:00:00.000Z; null stays null. */
export const utcText = (expression: string): string =>
  `to_char(${expression} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;
