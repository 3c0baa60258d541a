import type { Activity } from '@studio/clinical-flags';
import type { ChangeItem } from './changes.dto.js';

/** What a rider must be allowed for a change: to ride, so that it can be answered for, and what the change itself is. */
export function activitiesOf(items: readonly Pick<ChangeItem, 'what'>[]): Activity[] {
  const own = items.flatMap(({ what }): Activity[] => {
    if (what.startsWith('shim') || what === 'wedge') return ['wedge_or_shim'];
    if (what.startsWith('cleat')) return ['cleat_change'];
    return what === 'saddle' ? ['saddle_trial'] : [];
  });
  return ['riding', ...new Set(own)];
}
