/** The engine: pure functions over plain values. It knows no database, no clock and no randomness but a given seed. */
export * from './money.ts';
export * from './types.ts';
export * from './words.ts';
