export {
  airDensity,
  airDensityKgPerM3,
  saturationVapourPressurePa,
  usualWeatherErrors,
  type Weather,
  type WeatherErrors,
} from './air-density.js';
export {
  handPositionAreaRatios,
  timeTrialAreaRatio,
  type HandPosition,
  type RiderSize,
} from './area-ratios.js';
export { courseTime, type CourseTime, type Stretch } from './course-time.js';
export { dragAreaChangeM2, usualSilhouette, type Estimate, type Silhouette } from './drag-area-change.js';
export { loweringGain, runToRunDragAreaM2, type LoweringGain, type LoweringInput } from './lowering-gain.js';
export { roadPower, type RiderOnRoad, type Road, type RoadPower } from './road-power.js';
export { standardPressurePa, standardTemperatureK } from './standard-atmosphere.js';
export { steadySpeedMps } from './steady-speed.js';
export { windOnRoad, type WindOnRoad } from './wind.js';
