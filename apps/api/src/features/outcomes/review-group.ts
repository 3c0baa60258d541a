import type { BikeKind } from '@studio/database';
import type { BikeUse } from '../equipment/index.js';
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
  crank_length: 'with another crank length',
  leg_length: 'with something done for unequal legs',
};

const onA = (kind: BikeKind): string =>
  kind === 'other' ? 'on another kind of bike' : `on a ${kind.replace('_', '-')} bike`;

const uses: Readonly<Record<BikeUse, string>> = {
  racing: 'for racing',
  time_trial: 'for time trials',
  long_rides: 'for long rides',
  training: 'for training',
  touring: 'for touring',
  commuting: 'for commuting',
  off_road: 'off the road',
  indoor: 'indoors',
};

const complaints: Readonly<Record<Complaint, string>> = {
  pain: 'in pain before',
  numb_feet: 'with numb feet before',
};

/** The group in words: `riders with the cleat at midfoot, fitted since 2026-01-01`. */
export function groupInWords(query: ReviewQuery): string {
  const { intervention, cleatBackFromMm, cleatBackBelowMm, bikeKind, bikeUse } = query;
  const { complaint, from, until, fitterId, siteId } = query;
  const band = [
    ...(cleatBackFromMm === undefined ? [] : [`${cleatBackFromMm} mm or more`]),
    ...(cleatBackBelowMm === undefined ? [] : [`less than ${cleatBackBelowMm} mm`]),
  ].join(' and ');
  const details = [
    ...(intervention === undefined ? [] : [changes[intervention]]),
    ...(band === '' ? [] : [`whose cleat moved back by ${band}`]),
    ...(bikeKind === undefined ? [] : [onA(bikeKind)]),
    ...(bikeUse === undefined ? [] : [`riding ${uses[bikeUse]}`]),
    ...(complaint === undefined ? [] : [complaints[complaint]]),
    ...(from === undefined ? [] : [`fitted since ${from}`]),
    ...(until === undefined ? [] : [`fitted until ${until}`]),
    ...(fitterId === undefined ? [] : ['of one fitter']),
    ...(siteId === undefined ? [] : ['at one site']),
  ];
  return details.length === 0 ? 'all riders' : `riders ${details.join(', ')}`;
}
