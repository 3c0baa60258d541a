import { formulaVersion } from '../formula-version.js';
import { requireRange } from '../require-range.js';
import { propagate, type Uncertain } from '../uncertainty.js';

export interface Weather {
  /** Air temperature in the shade. −40–55. */
  readonly temperatureC: number;
  /** Pressure at the place itself, not reduced to sea level. 30000–110000. */
  readonly pressurePa: number;
  /** 0 = dry, 1 = saturated. 0–1. */
  readonly relativeHumidity: number;
}

/** Standard deviations of the weather readings. */
export type WeatherErrors = Weather;

/** House rule: a weather report from within an hour and a few kilometres. */
export const usualWeatherErrors: WeatherErrors = {
  temperatureC: 1,
  pressurePa: 200,
  relativeHumidity: 0.1,
};

const dryAirGasConstant = 287.058;
const waterVapourGasConstant = 461.495;

/**
 * Density of moist air, as a mixture of two ideal gases.
 *
 * @returns kg/m³; within 0.06 % of the real-gas equation of metrology for weather one rides in
 * @throws FitMathError naming the reading outside its range
 * @source ideal gas law; checked against CIPM-2007, Picard et al. 2008, Metrologia 45:149–155
 * @check outside/air: CIPM-2007 in eight weathers; psychrolib in 81; standard atmosphere at eight altitudes
 * @tolerance 0.06 %; 0.02 %; 0.003 %
 * @example airDensityKgPerM3({ temperatureC: 20, pressurePa: 101325, relativeHumidity: 0.5 }); // 1.1988…
 */
export function airDensityKgPerM3(weather: Weather): number {
  requireRange('temperatureC', weather.temperatureC, -40, 55);
  requireRange('pressurePa', weather.pressurePa, 30000, 110000);
  requireRange('relativeHumidity', weather.relativeHumidity, 0, 1);
  return mixtureDensity(weather);
}

function mixtureDensity({ temperatureC, pressurePa, relativeHumidity }: Weather): number {
  const vapourPa = relativeHumidity * magnusPa(temperatureC);
  const kelvin = temperatureC + 273.15;
  return (
    (pressurePa - vapourPa) / (dryAirGasConstant * kelvin) + vapourPa / (waterVapourGasConstant * kelvin)
  );
}

/**
 * Pressure of water vapour in saturated air over water.
 *
 * @param temperatureC −40–55
 * @returns Pa; within 0.31 % of CIPM-2007 from 0 to 40 °C
 * @throws FitMathError `input.out-of-range`
 * @source Magnus form with Sonntag's constants, from memory; checked against CIPM-2007
 * @check outside/air: CIPM-2007 at 0, 10, 20 and 30 °C
 * @tolerance 0.31 %
 * @example saturationVapourPressurePa(20); // 2332.5…
 */
export function saturationVapourPressurePa(temperatureC: number): number {
  return magnusPa(requireRange('temperatureC', temperatureC, -40, 55));
}

const magnusPa = (temperatureC: number): number =>
  611.2 * Math.exp((17.62 * temperatureC) / (243.12 + temperatureC));

/**
 * The same with the error the weather readings bring.
 *
 * @throws FitMathError naming the reading outside its range
 * @source airDensityKgPerM3; GUM, section 5.1.2
 * @check src/air/air: shares of a kelvin and two hectopascal by hand
 * @tolerance 0.1 % of the error
 * @example airDensity({ temperatureC: 20, pressurePa: 101325, relativeHumidity: 0.5 }).densityKgPerM3.sd; // 0.0051…
 */
export function airDensity(
  weather: Weather,
  errors: WeatherErrors = usualWeatherErrors,
): { readonly formulaVersion: string; readonly densityKgPerM3: Uncertain } {
  // Checked here once: within an error of its edge a reading is shifted beyond it, which the mixture can take.
  airDensityKgPerM3(weather);
  const { temperatureC, pressurePa, relativeHumidity } = weather;
  const densityKgPerM3 = propagate(
    { temperatureC, pressurePa, relativeHumidity },
    {
      temperatureC: requireRange('errors.temperatureC', errors.temperatureC, 0, 20),
      pressurePa: requireRange('errors.pressurePa', errors.pressurePa, 0, 10000),
      relativeHumidity: requireRange('errors.relativeHumidity', errors.relativeHumidity, 0, 1),
    },
    mixtureDensity,
  );
  return { formulaVersion, densityKgPerM3 };
}
