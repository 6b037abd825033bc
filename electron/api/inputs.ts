/**
 * What the procedures take: one zod schema each, so that bad input is refused where it
 * enters, with its place.
 */

export * from './inputs/beliefs.ts';
export * from './inputs/cars.ts';
export * from './inputs/collection.ts';
export * from './inputs/decisions.ts';
export * from './inputs/files.ts';
export * from './inputs/lots.ts';
export * from './inputs/names.ts';
export * from './inputs/photos.ts';
export * from './inputs/reference.ts';
export * from './inputs/sales.ts';
export * from './inputs/shared.ts';
export * from './inputs/windows.ts';
export * from './inputs/words.ts';
export * from './inputs/work.ts';
export * from './inputs/young.ts';
