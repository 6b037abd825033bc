import type { PhotoView } from '../../../../../electron/api/views.ts';
import { readerWords } from '../../../../components/words.ts';

/** Two photographs of one view, before the work and after it. */
export interface PhotoPair {
  view: string;
  before: PhotoView;
  after: PhotoView;
}

/**
 * The views that were taken both before and after, in the photographs' order; of several the first before
 * and the last after.
 */
export const photoPairs = (photos: readonly PhotoView[]): PhotoPair[] => {
  const views = [...new Set(photos.map(photo => photo.view))];
  return views.flatMap(view => {
    const ofView = photos.filter(photo => photo.view === view);
    const before = ofView.find(photo => photo.state === 'before');
    const after = ofView.findLast(photo => photo.state === 'after');
    return before && after ? [{ view, before, after }] : [];
  });
};

/** What a photograph is called: its view and state, then its caption where that says more. */
export const photoName = ({
  view,
  state,
  caption,
}: Pick<PhotoView, 'view' | 'state' | 'caption'>): string => {
  const words = [readerWords().view(view), state].filter(Boolean).join(', ');
  const says = caption.trim();
  if (!words) return says || 'photograph';
  return says && says.toLowerCase() !== view.toLowerCase() ? `${words}: ${says}` : words;
};
