import type { PhotoRecord } from '../../../db/photos/photo-lists.ts';
import type { PhotoView } from '../views.ts';

/** A photograph as screens show it, without whose it is. */
export const photoView = (photo: PhotoRecord): PhotoView => ({
  id: photo.id,
  sha256: photo.sha256,
  width: photo.width,
  height: photo.height,
  view: photo.view,
  caption: photo.caption,
  state: photo.state,
  takenOn: photo.takenOn,
});
