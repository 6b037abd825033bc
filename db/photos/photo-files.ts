import { existsSync, readdirSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { makeFolder, syncFolder, writeWhole } from '../file/files.ts';
import { layout } from '../file/layout.ts';

/** The picture formats kept, each with the ending of its files, and whether every screen can show it. */
export const photoFormats = {
  jpeg: { ending: 'jpg', contentType: 'image/jpeg', shown: true },
  png: { ending: 'png', contentType: 'image/png', shown: true },
  webp: { ending: 'webp', contentType: 'image/webp', shown: true },
  tiff: { ending: 'tif', contentType: 'image/tiff', shown: false },
  avif: { ending: 'avif', contentType: 'image/avif', shown: true },
  gif: { ending: 'gif', contentType: 'image/gif', shown: true },
  heic: { ending: 'heic', contentType: 'image/heic', shown: false },
} as const;
export type PhotoFormat = keyof typeof photoFormats;

/**
 * Smaller copies, by the longest side in pixels; enough for a dense screen at the sizes they are shown. The
 * large one stands in for an original that no screen shows, and is made when it is first asked for.
 */
export const copySizes = { thumbnail: 320, screen: 1280, large: 4096 } as const;
export type CopySize = keyof typeof copySizes;
export const copiesMadeAtOnce: readonly CopySize[] = ['thumbnail', 'screen'];

/** The folder of a photograph: photos/ab for one whose SHA-256 begins with ab. */
const shelf = (dir: string, sha256: string) => join(layout(dir).photos, sha256.slice(0, 2));

/** Where an original lies, or undefined where there is none. */
export const originalPath = (dir: string, sha256: string): string | undefined => {
  for (const { ending } of Object.values(photoFormats)) {
    const path = join(shelf(dir, sha256), `${sha256.slice(2)}.${ending}`);
    if (existsSync(path)) return path;
  }
  return undefined;
};

/** The format of an original, told by its file's ending. */
export const formatOfFile = (path: string): PhotoFormat => {
  const ending = basename(path).split('.').at(-1);
  const found = Object.entries(photoFormats).find(([, format]) => format.ending === ending);
  if (!found) throw new RangeError(`${path} has no ending of a photograph`);
  return found[0] as PhotoFormat;
};

/** Writes an original so that it is there whole or not at all, and durable with its folders. */
export const writeOriginal = (dir: string, sha256: string, format: PhotoFormat, bytes: Uint8Array): void => {
  const { photos } = layout(dir);
  const folder = shelf(dir, sha256);
  if (!existsSync(folder)) {
    makeFolder(folder);
    syncFolder(dir);
    syncFolder(photos);
  }
  writeWhole(join(folder, `${sha256.slice(2)}.${photoFormats[format].ending}`), bytes);
};

/** Where a smaller copy lies, made or not. */
export const copyPath = (dir: string, sha256: string, size: CopySize): string =>
  join(layout(dir).thumbnails, sha256.slice(0, 2), `${sha256.slice(2)}-${copySizes[size]}.webp`);

/** The SHA-256 of every original in the photo folder. */
export const storedPhotos = (dir: string): string[] => {
  const { photos } = layout(dir);
  if (!existsSync(photos)) return [];
  return readdirSync(photos)
    .filter(name => /^[0-9a-f]{2}$/.test(name))
    .flatMap(prefix =>
      readdirSync(join(photos, prefix)).flatMap(name => {
        const match = /^([0-9a-f]{62})\.[a-z]+$/.exec(name);
        return match ? [prefix + match[1]] : [];
      }),
    );
};

/**
 * Where each photograph's picture for print lies: the screen copy, whose pixels are enough, else the
 * original; each folder is listed once. Where neither is there, the path at which the copy would lie.
 */
export const printedPaths = (dir: string): ((sha256: string) => string) => {
  const listed = new Map<string, Set<string>>();
  const namesIn = (folder: string): Set<string> => {
    let names = listed.get(folder);
    if (!names) {
      names = new Set(existsSync(folder) ? readdirSync(folder) : []);
      listed.set(folder, names);
    }
    return names;
  };
  return sha256 => {
    const copy = copyPath(dir, sha256, 'screen');
    if (namesIn(dirname(copy)).has(basename(copy))) return copy;
    const folder = shelf(dir, sha256);
    const original = Object.values(photoFormats)
      .map(({ ending }) => `${sha256.slice(2)}.${ending}`)
      .find(name => namesIn(folder).has(name));
    return original ? join(folder, original) : copy;
  };
};
