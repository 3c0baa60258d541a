import type { ReviewedSession } from './review.queries.js';
import type { Complaint, Intervention, ReviewQuery } from './review-query.dto.js';

/** Each client by the newest session, so that nobody counts twice. */
export interface Group {
  readonly sessions: readonly ReviewedSession[];
  readonly earlierSessions: number;
}

/** @param sessions oldest first */
export function groupOf(sessions: readonly ReviewedSession[]): Group {
  const newest = new Map<string, ReviewedSession>();
  for (const session of sessions) newest.set(session.clientId, session);
  return { sessions: [...newest.values()], earlierSessions: sessions.length - newest.size };
}

/** Those with the change asked about, and everybody who never had it. */
export function groupAndOthers(sessions: readonly ReviewedSession[]): { group: Group; others: Group } {
  const chosen = sessions.filter((session) => session.chosen);
  const clients = new Set(chosen.map(({ clientId }) => clientId));
  return {
    group: groupOf(chosen),
    others: groupOf(sessions.filter(({ clientId }) => !clients.has(clientId))),
  };
}

const changes: Readonly<Record<Intervention, string>> = {
  cleat_back: 'with the cleat moved back',
  midfoot: 'with the cleat at midfoot',
  saddle_height: 'with another saddle height',
};

const complaints: Readonly<Record<Complaint, string>> = {
  pain: 'in pain before',
  numb_feet: 'with numb feet before',
};

/** The group in words: `riders with the cleat at midfoot, fitted since 2026-01-01`. */
export function groupInWords(query: ReviewQuery): string {
  const { intervention, cleatBackFromMm, cleatBackBelowMm, complaint, from, until, fitterId, siteId } = query;
  const band = [
    ...(cleatBackFromMm === undefined ? [] : [`${cleatBackFromMm} mm or more`]),
    ...(cleatBackBelowMm === undefined ? [] : [`less than ${cleatBackBelowMm} mm`]),
  ].join(' and ');
  const details = [
    ...(intervention === undefined ? [] : [changes[intervention]]),
    ...(band === '' ? [] : [`whose cleat moved back by ${band}`]),
    ...(complaint === undefined ? [] : [complaints[complaint]]),
    ...(from === undefined ? [] : [`fitted since ${from}`]),
    ...(until === undefined ? [] : [`fitted until ${until}`]),
    ...(fitterId === undefined ? [] : ['of one fitter']),
    ...(siteId === undefined ? [] : ['at one site']),
  ];
  return details.length === 0 ? 'all riders' : `riders ${details.join(', ')}`;
}
