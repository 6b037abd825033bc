import type { PhotoPixels } from '../model/entry-model.ts';
import type { ReportModel } from '../model/report-model.ts';
import { printPhotos } from './photos.ts';

/** Bytes that a photograph takes while its page is set, three to the pixel, at two thirds of a square. */
const decodedBytes = (long: number): number => long * long * 2;

/**
 * Names photographs inside the document and makes them ready for print when they are needed, so that those
 * of a long report need not be held together.
 */
export class PhotoFiles {
  readonly #named = new Map<string, { path: string; pixels: number }>();
  readonly #names = new Map<string, string>();
  /** What was wrong with photographs that could not be printed, by path. */
  readonly failed = new Map<string, string>();

  readonly nameOf = (path: string, pixels: PhotoPixels): string => {
    const key = `${pixels} ${path}`;
    const known = this.#names.get(key);
    if (known) return known;
    const name = `photo-${this.#names.size + 1}.jpg`;
    this.#names.set(key, name);
    this.#named.set(name, { path, pixels });
    return name;
  };

  /** Bytes that these take together while they are set. */
  weight(names: Iterable<string>): number {
    let bytes = 0;
    for (const name of names) bytes += decodedBytes(this.#named.get(name)?.pixels ?? 0);
    return bytes;
  }

  /** Those that a document shows, ready for print; the others are left out of `model`, as missing. */
  async ready(
    model: ReportModel,
    onProgress: (done: number, total: number) => void,
  ): Promise<{ model: ReportModel; photos: Map<string, Buffer> }> {
    const names = [...new Set(filesOf(model))];
    const ready = new Map<string, Buffer>();
    let before = 0;
    for (const [long, files] of Map.groupBy(names, name => this.#named.get(name)!.pixels)) {
      const paths = files.map(file => this.#named.get(file)!.path);
      const printed = await printPhotos(paths, long, done => onProgress(before + done, names.length));
      before += files.length;
      for (const [i, file] of files.entries()) {
        const picture = printed.ready.get(paths[i]!);
        if (picture) ready.set(file, picture);
      }
      for (const [path, reason] of printed.failed) this.failed.set(path, reason);
    }
    const shown = (file: string | null): boolean => file !== null && ready.has(file);
    if (ready.size === names.length) return { model, photos: ready };
    return {
      photos: ready,
      model: {
        ...model,
        coverPhotos: model.coverPhotos.filter(({ file }) => shown(file)),
        groups: model.groups.map(group => ({
          ...group,
          entries: group.entries.map(entry => ({
            ...entry,
            photos: entry.photos.map(photo => (shown(photo.file) ? photo : { ...photo, file: null })),
          })),
        })),
      },
    };
  }
}

/** The names of all photographs that a document shows. */
export const filesOf = ({ coverPhotos, groups }: Pick<ReportModel, 'coverPhotos' | 'groups'>): string[] => [
  ...coverPhotos.map(({ file }) => file),
  ...groups.flatMap(({ entries }) =>
    entries.flatMap(({ photos }) => photos.flatMap(({ file }) => file ?? [])),
  ),
];
