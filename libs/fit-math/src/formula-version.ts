/** Stored beside every result, so that a later change of a formula does not pass for a change of the rider. */
export const formulaVersion = '1.1.0';
