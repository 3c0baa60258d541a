export {
  CautionResponse,
  ChooseOptionRequest,
  CleatPlanResponse,
  PlanCleatRequest,
  toCleatPlan,
} from './cleat-plan.dto.js';
export type { MeasurementResponse } from './measurements.dto.js';
export type { PositionResponse } from './positions.dto.js';
export { SessionWrites } from './session-writes.js';
export { findFitSession, findSessionForUpdate } from './fit-sessions.queries.js';
export { missingForSignOff } from './missing.js';
export { whileOpen } from './while-open.js';
export type { SessionWrite, Writer } from './writes/session-write.js';
