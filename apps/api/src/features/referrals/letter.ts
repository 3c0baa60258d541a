import { activities, type Activity, type Route } from '@studio/clinical-flags';
import type { ScreeningOccasion } from '@studio/database';
import { localDay } from '../../http/local-days.js';
import { caseFacts } from './case-facts.js';
import type { Addressed, CaseFinding } from './referrals.queries.js';

export type Block =
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | { readonly kind: 'facts'; readonly facts: readonly { question: string; answer: string }[] }
  /** Lines to be filled in by hand. */
  | { readonly kind: 'form'; readonly lines: readonly string[] };

/** A letter before it becomes text or PDF. */
export interface Letter {
  readonly language: 'en';
  readonly title: string;
  readonly from: string;
  readonly date: string;
  readonly reference: string;
  readonly sections: readonly { readonly heading: string; readonly blocks: readonly Block[] }[];
}

const howSoon: Readonly<Record<Route, string>> = {
  emergency_now: 'Please assess at once: our screening routes this to emergency care.',
  same_day_medical: 'Please assess today: our screening routes this to medical care the same day.',
  gp_within_days: 'Please assess within days.',
  gp_for_vascular_specialist:
    'Please assess, and consider whether a vascular specialist should see the rider.',
  physiotherapist_or_podiatrist: 'Please assess within the coming weeks.',
  fit_with_caution: 'Please assess when convenient.',
};

const inWords: Readonly<Record<Activity, string>> = {
  riding: 'riding on an indoor trainer at an easy effort',
  hard_effort: 'hard efforts on the bike',
  provocation_test: 'riding until the complaint shows',
  saddle_trial: 'long trials in the saddle',
  cleat_change: 'changing where the shoe is fixed to the pedal',
  wedge_or_shim: 'wedges and shims under the shoe',
  shoe_work: 'cutting, drilling or glueing the sole of the shoe',
  bonding: 'parts that are glued in near the skin',
};

const occasions: Readonly<Record<ScreeningOccasion, string>> = {
  intake: 'before the fit',
  session_start: 'at the start of a session',
  during_session: 'during a session',
  follow_up: 'in the weeks after the fit',
};

/** Nobody but a licensed clinician of the studio examines. */
const whatFollows = (examined: readonly string[]): string =>
  examined.length === 0
    ? 'We do not examine. What follows is what the rider answered, and nothing else.'
    : 'What follows is what the rider answered, and what a licensed clinician of ours makes of an examination.';

/**
 * The letter a client takes to a clinician: what they told us in their own answers, what we stopped, what we ask. It
 * names no diagnosis, since nothing here makes one.
 */
export function writeLetter(of: {
  referralId: string;
  route: Route;
  addressed: Addressed;
  findings: readonly CaseFinding[];
  now: Date;
}): Letter {
  const { referralId, route, addressed, findings, now } = of;
  const { studioName, clientName, bornOn, timeZone } = addressed;
  const examined = findings.flatMap(({ finding: { suppliedBy, messageForStaff } }) =>
    suppliedBy ? [`${suppliedBy.name} (${suppliedBy.registration}): ${messageForStaff}`] : [],
  );
  const stopped = activities.filter((activity) =>
    findings.some(
      ({ finding }) => finding.permission.level === 'none' || finding.permission.barred.includes(activity),
    ),
  );
  return {
    language: 'en',
    title: `Request for an assessment: ${clientName}`,
    from: studioName,
    date: localDay(now, timeZone),
    reference: referralId,
    sections: [
      {
        heading: 'To the clinician who sees this rider',
        blocks: [
          {
            kind: 'paragraph',
            text: `${clientName}${bornOn === null ? '' : `, born ${bornOn},`} came to us for a bike fit. ${howSoon[route]}`,
          },
          {
            kind: 'paragraph',
            text: `We fit bikes to riders. We ask every rider the same questions, and do not treat or diagnose. ${whatFollows(examined)}`,
          },
        ],
      },
      ...caseFacts(findings)
        .filter(({ facts }) => facts.length > 0)
        .map(({ occasion, screenedAt, facts }) => ({
          heading: `Answers given ${occasions[occasion]}, on ${localDay(screenedAt, timeZone)}`,
          blocks: [{ kind: 'facts' as const, facts }],
        })),
      ...(examined.length === 0
        ? []
        : [{ heading: 'What our clinician says', blocks: [{ kind: 'list' as const, items: examined }] }]),
      ...(stopped.length === 0
        ? []
        : [
            {
              heading: 'What we do not do until we hear from you',
              blocks: [{ kind: 'list' as const, items: stopped.map((activity) => inWords[activity]) }],
            },
          ]),
      {
        heading: 'What we ask',
        blocks: [
          {
            kind: 'list',
            items: [
              'Please assess the rider as you see fit.',
              'Please tell us which of the above the rider may do again, from when, and until when that holds.',
              'Please name anything else we should avoid.',
            ],
          },
        ],
      },
      {
        heading: 'Your answer',
        blocks: [
          {
            kind: 'form',
            lines: [
              'The rider may do',
              'Until',
              'To be avoided',
              'Name',
              'Registration',
              'Date and signature',
            ],
          },
        ],
      },
    ],
  };
}
