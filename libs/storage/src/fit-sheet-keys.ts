import { storageKey } from './storage-key.js';

/** Where the documents of a fit sheet's row are. */
export function fitSheetKeys(studioId: string, fitSheetId: string) {
  const key = (name: string): string => storageKey(studioId, 'fit-sheets', fitSheetId, name);
  return {
    pdf: key('sheet.pdf'),
    page: key('page.html'),
    figure: (name: string): string => key(`${name}.svg`),
  };
}
