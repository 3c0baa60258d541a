import { requireRange } from '../require-range.js';

/**
 * Pressure of the standard atmosphere, for a place without a barometer.
 *
 * @param geopotentialAltitudeM above mean sea level, **geopotential** (a map's altitude is within 2 m of it below
 *   3500 m). −500–11000
 * @returns Pa
 * @throws FitMathError `input.out-of-range`
 * @source U.S. Standard Atmosphere 1976, troposphere
 * @check outside/air: ASHRAE Handbook 2017, chapter 1, table 1; psychrolib
 * @tolerance 1 Pa; 2 Pa
 * @example standardPressurePa(1000); // 89874.5…
 */
export function standardPressurePa(geopotentialAltitudeM: number): number {
  return 101325 * (standardTemperatureK(geopotentialAltitudeM) / 288.15) ** 5.25588;
}

/**
 * Temperature of the standard atmosphere.
 *
 * @param geopotentialAltitudeM −500–11000
 * @returns kelvin
 * @throws FitMathError `input.out-of-range`
 * @source U.S. Standard Atmosphere 1976, troposphere
 * @check outside/air: the standard’s table at eight altitudes
 * @tolerance 0.0001 K
 * @example standardTemperatureK(2000); // 275.15
 */
export function standardTemperatureK(geopotentialAltitudeM: number): number {
  return 288.15 - 0.0065 * requireRange('geopotentialAltitudeM', geopotentialAltitudeM, -500, 11000);
}
