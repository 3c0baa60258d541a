import type { Grant, Permission } from './permission.js';

/**
 * Who may do what, and who is shown which fields: all of it, in one place. The guard asks this table, and so does what
 * leaves fields out of answers; the page docs/operations/permissions.md and the tests of every operation with every role
 * are written from it.
 *
 * A route names its row by the id of its operation. The API does not start with a route that names none, nor with a row
 * that no route names.
 */

/** Fields that are not shown to everybody who may use the operation. What a field is, its own DTO says (`@Marked`). */
export const shownTo = {
  /** What somebody told of their health, what was found, and what a clinician wrote. */
  medical: ['owner', 'fitter'],
  /** Values and scores of a clinician's examination. What follows from them is a finding, and shown like any other. */
  clinician: ['clinician'],
} as const satisfies Record<string, readonly Grant[]>;

const anyone: Permission = { who: 'anyone' };
/** Everybody of the studio. */
const staff: Permission = { who: ['owner', 'fitter', 'front_desk'] };
const owner: Permission = { who: ['owner'] };
const fitter: Permission = { who: ['fitter'] };
/** Who works with the records. */
const record: Permission = { who: ['owner', 'fitter'] };
/** Who runs the office. */
const office: Permission = { who: ['owner', 'front_desk'] };
const health: Permission = { ...record, health: true };
const ownerHealth: Permission = { ...owner, health: true };
const staffInPerson: Permission = { ...staff, inPerson: true };
const ownerInPerson: Permission = { ...owner, inPerson: true };
const recordInPerson: Permission = { ...record, inPerson: true };
const clinicianInPerson: Permission = { who: ['clinician'], inPerson: true };

/** By the id of the operation; pages that the OpenAPI document leaves out have one row for all of a link. */
export const permissions = {
  // Accounts
  listDayTotals: staff,
  getClientBalance: staff,
  exportSales: owner,
  exportMoney: owner,
  createAccountDocument: staff,
  listAccountDocuments: staff,
  getAccountDocument: staff,
  getAccountDocumentPdf: staff,
  changeAccountDocument: staff,
  issueAccountDocument: staff,
  discardAccountDocument: staff,
  makeReceiptOfQuote: staff,
  createCreditNote: staff,
  recordPayment: staff,
  listPayments: staff,
  reversePayment: staff,
  useDeposit: staff,
  createAccountSettings: owner,
  getAccountSettings: staff,
  updateAccountSettings: owner,
  createTaxRate: owner,
  listTaxRates: staff,
  endTaxRate: owner,
  createPart: owner,
  listParts: staff,
  getPart: staff,
  updatePart: owner,

  // Audit
  listAuditEntries: owner,
  verifyAudit: owner,

  // Appointments
  createAppointmentSeries: staff,
  getAppointmentSeries: staff,
  createAppointment: staff,
  listAppointments: staff,
  getAppointment: staff,
  getAppointmentHistory: staff,
  moveAppointment: staff,
  bookHeldAppointment: staff,
  cancelAppointment: staff,
  checkInAppointment: staff,
  markAppointmentNoShow: staff,
  completeAppointment: staff,
  reinstateAppointment: staff,

  // Calendars
  createCalendarFeed: staff,
  listCalendarFeeds: staff,
  renewCalendarFeed: staff,
  revokeCalendarFeed: staff,
  readCalendarFeed: anyone,

  // Calculations
  calculateCleatPlans: staff,
  calculateCleatPlaces: staff,
  calculateCleatsForBothFeet: staff,
  calculateCleatRotations: staff,
  calculateStances: staff,
  calculateStanceOptions: staff,
  calculateSaddleChanges: staff,
  calculatePedalTurns: staff,
  calculateSaddleHeights: staff,
  calculateKneeOverSpindle: staff,
  calculateSaddleSwaps: staff,
  calculateRacingSaddleChecks: staff,
  calculateCrankChanges: staff,
  calculateCrankLengths: staff,
  calculateSegmentsFromHeights: staff,
  calculateSegmentsFromStature: staff,
  calculateLegLengthJudgements: staff,
  calculateLegLengthOptions: staff,
  calculateTransfers: staff,
  calculateSecondBikes: staff,
  calculateAirDensities: staff,
  calculateCourseTimes: staff,
  calculateLoweringGains: staff,
  calculateRearwardCleatSuitability: staff,
  calculateCapturedMotion: staff,
  calculateQuantities: staff,
  calculateMeasurements: staff,
  calculateRepeats: staff,
  calculateSideDifferences: staff,

  // Availability
  listSlots: staff,
  firstSlots: staff,

  // Catalogue
  createService: owner,
  listServices: staff,
  getService: staff,
  updateService: owner,

  // Client imports
  uploadClientImport: office,
  listClientImports: office,
  getClientImport: office,
  mapClientImport: office,
  listClientImportRows: office,
  decideClientImportRow: office,
  orderClientImport: office,
  deleteClientImport: office,

  // Clients
  linkClient: staff,
  listClientLinks: staff,
  unlinkClient: staff,
  mergeClient: staff,
  listClientMerges: staff,
  undoClientMerge: staff,
  writeClientNote: staff,
  listClientNotes: staff,
  correctClientNote: staff,
  createClient: staff,
  listClients: staff,
  getClient: staff,
  updateClient: staff,
  listLikelyDuplicates: staff,
  giveConsent: staff,
  listConsents: staff,
  withdrawConsent: staff,
  exportClients: owner,

  // Day sheet
  getDaySheet: staff,
  getDaySheetPage: staff,

  // Equipment
  createBike: record,
  listBikes: record,
  getBike: record,
  updateBike: record,
  listBikeParts: record,
  fitBikePart: record,
  removeBikePart: record,
  createShoe: record,
  listShoes: record,
  getShoe: record,
  updateShoe: record,
  listShoeHardware: record,
  mountShoeHardware: record,
  unmountShoeHardware: record,

  // Files
  uploadFile: fitter,
  listFiles: health,
  getFile: health,
  deleteFile: fitter,
  readStoredObject: anyone,

  // Fit sessions
  addChange: fitter,
  putChangeResponse: fitter,
  reportComplaint: fitter,
  openFitSession: fitter,
  listFitSessions: health,
  getFitSession: health,
  putBaseline: fitter,
  getFlow: health,
  putPlace: fitter,
  startTimer: fitter,
  stopTimer: fitter,
  addMeasurement: fitter,
  addMeasurements: fitter,
  withdrawMeasurement: fitter,
  correctMeasurement: fitter,
  sendOperations: fitter,
  listOperations: health,
  putPosition: fitter,
  listPositions: health,
  comparePositions: health,
  getSignOff: health,
  getAdvice: health,
  putAdvice: fitter,
  signFitSession: fitter,
  amendFitSession: fitter,

  // Fit sheets
  openFitSheetLink: anyone,
  orderFitSheet: record,
  listFitSheets: health,
  getFitSheet: health,

  // Follow ups
  getChosenActivities: record,
  putChosenActivities: record,
  openFollowUpLink: anyone,
  answerFollowUp: anyone,
  answerFollowUpPages: anyone,
  listFollowUps: staff,
  addFollowUp: record,
  chooseFollowUpPlan: record,
  getFollowUp: health,
  answerFollowUpByPhone: record,
  listFollowUpChanges: staff,
  moveFollowUp: staff,
  skipFollowUp: staff,
  listFollowUpPlans: staff,
  createFollowUpPlan: owner,
  changeFollowUpPlan: owner,
  sendRidePages: anyone,

  // Health
  live: anyone,
  ready: anyone,

  // Intake pages
  createIntakeLink: staff,
  listIntakeLinks: staff,
  revokeIntakeLink: staff,
  answerIntakePages: anyone,

  // Messages
  takeMailReport: anyone,
  getMessageSettings: staff,
  updateMessageSettings: owner,
  listMessageTemplates: staff,
  getMessageTemplate: staff,
  writeMessageText: owner,
  restoreMessageText: owner,
  previewMessage: staff,
  listMessages: staff,
  getMessage: staff,
  repeatMessage: staff,
  cancelMessage: staff,
  clearUndeliverableAddress: staff,
  unsubscribePages: anyone,

  // Motion recordings
  importMotion: fitter,
  listMotionRecordings: health,
  getMotionRecording: health,

  // Similar positions
  findSimilarPositions: record,

  // Opening hours
  getOpeningHours: staff,
  createWeeklyHours: owner,
  listWeeklyHours: staff,
  updateWeeklyHours: owner,
  deleteWeeklyHours: owner,
  createHoursException: office,
  listHoursExceptions: staff,
  updateHoursException: office,
  deleteHoursException: office,

  // Outcomes
  checkModel: owner,
  drawModelCheck: owner,
  listSaddleOffsets: owner,
  applySaddleOffset: owner,
  listOutcomes: ownerHealth,
  getOutcome: health,
  getClientSummary: health,
  drawClientSummary: health,
  reviewOutcomes: owner,
  askAboutPower: owner,
  drawReview: owner,
  exportReviewCsv: owner,
  exportReviewPdf: owner,
  reviewWorkload: owner,
  exportWorkloadCsv: owner,
  exportWorkloadPdf: owner,

  // Queues
  showQueues: owner,
  listFailedOrders: owner,
  retryFailedOrder: owner,
  discardFailedOrder: owner,

  // Plans
  planCleat: fitter,
  chooseCleatOption: fitter,
  pairPositions: fitter,
  listPairedPositions: health,
  getPairedPosition: health,
  makePlan: fitter,
  listPlans: health,
  listPredictions: health,
  getPlan: health,
  choosePlanOption: fitter,

  // Referrals
  listReferrals: health,
  getReferral: health,
  getReferralLetter: health,
  getReferralLetterPdf: health,
  handOverReferral: record,
  acknowledgeReferral: record,
  answerReferral: record,
  clearReferral: fitter,
  endReferral: record,

  // Premises
  createSite: owner,
  listSites: staff,
  updateSite: owner,
  createRoom: owner,
  listRooms: staff,
  updateRoom: owner,
  createBench: owner,
  listBenches: staff,
  updateBench: owner,

  // Screenings
  listRules: record,
  signOffRules: owner,
  listQuestionSets: staff,
  createScreening: staff,
  listScreenings: health,
  getScreening: health,
  getDeskNotice: staff,
  clearScreening: fitter,
  recordClinicianScore: clinicianInPerson,
  listClinicianScores: health,

  // Record signatures
  listRecordSignatures: record,
  verifyRecords: owner,

  // Rights
  takeExportPages: anyone,
  orderPersonExport: owner,
  listPersonExports: ownerHealth,
  mailPersonExport: owner,
  openRecord: recordInPerson,
  listRecordOpenings: owner,
  getProcessingRecord: owner,
  getRetention: owner,
  chooseRetention: owner,
  recordRightsRequest: staff,
  listRightsRequests: owner,
  getRightsRequest: owner,
  checkRightsRequestIdentity: owner,
  extendRightsRequest: owner,
  refuseRightsRequest: owner,
  fulfilRightsRequest: owner,
  endRestriction: owner,

  // Sign ins
  listApiKeys: staffInPerson,
  createApiKey: staffInPerson,
  revokeApiKey: staffInPerson,
  choosePasswordPages: anyone,
  getMyAccount: staffInPerson,
  changeMyPassword: staffInPerson,
  beginMySecondFactor: staffInPerson,
  confirmMySecondFactor: staffInPerson,
  removeMySecondFactor: staffInPerson,
  listMySignIns: staffInPerson,
  endMySignIn: staffInPerson,
  requestPasswordReset: anyone,
  choosePassword: anyone,
  signIn: anyone,
  beginFirstSecondFactor: anyone,
  confirmFirstSecondFactor: anyone,
  refreshSignIn: anyone,
  endSignIn: anyone,

  // Shoe work
  listShoeWorks: staff,
  getShoeWorkAtDesk: staff,
  collectShoeWork: staff,
  getShoeWorkProcedure: staff,
  getShoeWorkFeasibility: health,
  openShoeWork: fitter,
  getShoeWork: health,
  consentToShoeWork: record,
  doShoeWorkStep: fitter,
  cureShoeWork: fitter,
  setShoeWorkParts: record,
  abandonShoeWork: record,

  // Staff
  getStudio: staff,
  listStaff: staff,
  createStaff: ownerInPerson,
  inviteStaff: ownerInPerson,
  updateStaff: ownerInPerson,
  giveClinicianMark: ownerInPerson,
  listClinicianMarks: owner,
  endClinicianMark: ownerInPerson,

  // Tasks
  listTasks: staff,
  getTask: staff,
  getTaskHistory: staff,
  finishTask: staff,
  snoozeTask: staff,
  assignTask: staff,
  reopenTask: staff,

  // Webhooks
  listWebhookEventTypes: owner,
  createWebhookEndpoint: owner,
  listWebhookEndpoints: owner,
  getWebhookEndpoint: owner,
  updateWebhookEndpoint: owner,
  renewWebhookSecret: owner,
  listWebhookDeliveries: owner,
  replayWebhookDelivery: owner,

  // Waiting list
  answerOfferPages: anyone,
  listSlotOffers: staff,
  getSlotOffer: staff,
  acceptSlotOffer: staff,
  declineSlotOffer: staff,
  createWish: staff,
  listWishes: staff,
  getWish: staff,
  changeWish: staff,
  withdrawWish: staff,
  resumeWish: staff,
  getWaitingListSettings: staff,
  changeWaitingListSettings: owner,

  // Test clock
  advanceTestClock: owner,
} as const satisfies Record<string, Permission>;

export type OperationId = keyof typeof permissions;
export type Mark = keyof typeof shownTo;

export const permissionOf = (id: OperationId): Permission => permissions[id];
