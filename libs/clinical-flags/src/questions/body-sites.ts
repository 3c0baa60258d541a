export type BodyView = 'front' | 'back';
export type Side = 'left' | 'right';

/** Name, words and view of every site a complaint can be at. Those with sides are asked left and right. */
const sites = [
  { site: 'neck', label: 'neck', view: 'back', sided: false },
  { site: 'shoulder', label: 'shoulder', view: 'back', sided: true },
  { site: 'elbow', label: 'elbow', view: 'back', sided: true },
  { site: 'hand', label: 'hand or wrist', view: 'front', sided: true },
  { site: 'upper_back', label: 'upper back', view: 'back', sided: false },
  { site: 'lower_back', label: 'lower back', view: 'back', sided: false },
  { site: 'buttock', label: 'buttock', view: 'back', sided: true },
  { site: 'saddle_area', label: 'area you sit on', view: 'front', sided: false },
  { site: 'hip', label: 'hip', view: 'front', sided: true },
  { site: 'groin', label: 'groin', view: 'front', sided: true },
  { site: 'thigh_front', label: 'front of the thigh', view: 'front', sided: true },
  { site: 'thigh_back', label: 'back of the thigh', view: 'back', sided: true },
  { site: 'knee_front', label: 'front of the knee', view: 'front', sided: true },
  { site: 'knee_back', label: 'back of the knee', view: 'back', sided: true },
  { site: 'knee_inner', label: 'inside of the knee', view: 'front', sided: true },
  { site: 'knee_outer', label: 'outside of the knee', view: 'front', sided: true },
  { site: 'shin', label: 'shin', view: 'front', sided: true },
  { site: 'calf', label: 'calf', view: 'back', sided: true },
  { site: 'achilles', label: 'Achilles tendon', view: 'back', sided: true },
  { site: 'ankle', label: 'ankle', view: 'front', sided: true },
  { site: 'heel', label: 'heel', view: 'back', sided: true },
  { site: 'midfoot', label: 'middle of the foot', view: 'front', sided: true },
  { site: 'forefoot', label: 'ball of the foot', view: 'front', sided: true },
  { site: 'toes', label: 'toes', view: 'front', sided: true },
] as const;

type SiteRow = (typeof sites)[number];
export type Site = SiteRow['site'];
type Sided = Extract<SiteRow, { sided: true }>['site'];

/** How an answer names a place: `left_calf`, `neck`. */
export type SiteAndSide = Exclude<Site, Sided> | `${Side}_${Sided}`;

export interface BodySite {
  readonly id: SiteAndSide;
  readonly label: string;
  readonly site: Site;
  readonly side: Side | null;
  readonly view: BodyView;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export const bodySites: readonly BodySite[] = sites.flatMap(({ site, label, view, sided }): BodySite[] =>
  sided
    ? (['left', 'right'] as const).map((side) => ({
        id: `${side}_${site}`,
        label: `${capital(side)} ${label}`,
        site,
        side,
        view,
      }))
    : [{ id: site, label: capital(label), site, side: null, view }],
);

/** The site an answer names, whichever side. */
export const siteOf = (id: string): BodySite | undefined => bodySites.find((site) => site.id === id);
