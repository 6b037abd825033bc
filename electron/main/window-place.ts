import { readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { makeFolder } from '../../db/file/files.ts';

interface Area {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** Where the window was; without a position the system chooses one. */
export interface WindowPlace {
  x?: number;
  y?: number;
  width: number;
  height: number;
  maximised: boolean;
}

const firstPlace: WindowPlace = { width: 1440, height: 900, maximised: false };
export const smallestWindow = { width: 1100, height: 680 };

const isWhole = (value: unknown): value is number => Number.isSafeInteger(value);

/** Enough of the title bar to take hold of the window must lie on a screen that is still there. */
const canBeReached = (place: Area, areas: readonly Area[]): boolean =>
  areas.some(
    area =>
      place.x + place.width - 100 >= area.x &&
      place.x + 100 <= area.x + area.width &&
      place.y >= area.y &&
      place.y + 40 <= area.y + area.height,
  );

/**
 * The place that a kept text describes on the screens there are now; the first place where it describes none.
 */
export const placeFrom = (saved: string | null, areas: readonly Area[]): WindowPlace => {
  let read: Partial<Record<keyof WindowPlace, unknown>> | null;
  try {
    read = JSON.parse(saved ?? 'null');
  } catch {
    return firstPlace;
  }
  if (!isWhole(read?.width) || !isWhole(read.height)) return firstPlace;
  const width = Math.max(read.width, smallestWindow.width);
  const height = Math.max(read.height, smallestWindow.height);
  const maximised = read.maximised === true;
  const { x, y } = read;
  if (!isWhole(x) || !isWhole(y) || !canBeReached({ x, y, width, height }, areas))
    return { width, height, maximised };
  return { x, y, width, height, maximised };
};

export const readPlace = (file: string, areas: readonly Area[]): WindowPlace => {
  try {
    return placeFrom(readFileSync(file, 'utf8'), areas);
  } catch {
    return placeFrom(null, areas);
  }
};

/** A place that cannot be kept is no reason to trouble anyone: the window then opens in its first place. */
export const keepPlace = (file: string, place: WindowPlace): void => {
  try {
    makeFolder(dirname(file));
    writeFileSync(file, JSON.stringify(place));
  } catch (error) {
    console.warn(`The window's position could not be saved: ${String(error)}`);
  }
};
