import { setImmediate as othersTurn } from 'node:timers/promises';
import type { BriefCar } from '../../../db/records/cars/brief-cars.ts';
import { slot } from '../session/cache.ts';
import type { Session } from '../session/session.ts';

/** Cars whose numbers are near each other, in the order of entering; another list as soon as one of them is another. */
export type CarBlock = readonly BriefCar[];

/** So many numbers make a block: few blocks to add up, and few cars to go through after an edit. */
const size = 512;

const numberOf = (id: number) => Math.floor(id / size);

/** All cars in blocks, by their numbers. */
export const blocksOf = (cars: ReadonlyMap<number, BriefCar>): Map<number, CarBlock> =>
  Map.groupBy(cars.values(), ({ id }) => numberOf(id));

/** The same blocks, but for those in which one of these ids lies, which are made again. */
export const blocksAgain = (
  blocks: Map<number, CarBlock>,
  cars: ReadonlyMap<number, BriefCar>,
  ids: readonly number[],
): Map<number, CarBlock> => {
  const made = new Map(blocks);
  for (const number of new Set(ids.map(numberOf))) {
    const block = Array.from({ length: size }, (_, i) => cars.get(number * size + i) ?? []).flat();
    if (block.length > 0) made.set(number, block);
    else made.delete(number);
  }
  return new Map([...made].sort(([a], [b]) => a - b));
};

/**
 * What is worked out of each block by itself, held while the block is the same and what it was worked out `from`
 * beside its cars. `make` is told which blocks are missing, and gives what works one out; other calls are answered
 * after each. They are held unless an action came in between.
 */
export const heldPieces = <Piece>() => {
  const place = slot<{ from: readonly unknown[]; pieces: WeakMap<CarBlock, Piece> } | null>(() => null);
  return async (
    session: Session,
    blocks: readonly CarBlock[],
    from: readonly unknown[],
    make: (missing: readonly CarBlock[]) => Promise<(block: CarBlock) => Piece>,
  ): Promise<Piece[]> => {
    const { cache } = session;
    const at = cache.now();
    const held = cache.of(place);
    const isSame = held?.from.length === from.length && held.from.every((one, i) => one === from[i]);
    const pieces = held && isSame ? held.pieces : new WeakMap<CarBlock, Piece>();
    const missing = blocks.filter(block => !pieces.has(block));
    const made = new Map<CarBlock, Piece>();
    if (missing.length > 0) {
      const pieceOf = await make(missing);
      for (const block of missing) {
        made.set(block, pieceOf(block));
        await othersTurn();
      }
    }
    if (cache.now() === at) {
      for (const [block, piece] of made) pieces.set(block, piece);
      cache.put(place, { from, pieces });
    }
    return blocks.flatMap(block => made.get(block) ?? pieces.get(block) ?? []);
  };
};
