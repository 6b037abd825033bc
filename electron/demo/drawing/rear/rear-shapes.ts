import type { PathPoint } from '../geometry.ts';
import { shapeOf } from '../shapes/index.ts';
import type { CarSpec } from '../spec.ts';
import type { RearShape } from './rear-surface.ts';

/** Half the width of a body at its widest. */
export const halfWidth = 20;

const fins = (deck: number): PathPoint[] => [
  [18.6, deck + 0.4],
  [18.4, deck + 3.4, 'corner'],
  [16.6, deck + 0.6],
];

/** Outline of the car from behind, from the measures of its side view. */
export const rearShapeOf = (spec: CarSpec): RearShape => {
  const side = shapeOf(spec);
  const { sill } = side;
  const deckY = spec.rearEnd === 'fin tail' ? side.deckSpot[1] : Math.max(14, side.deckSpot[1]);
  const roofY = side.roof ? Math.max(...side.roof.map(([, y]) => y)) : deckY + 0.6;
  const upright = spec.body === 'van' || spec.body === 'estate';
  const deck = upright ? side.roof!.at(-1)![1] : deckY;
  const roof = spec.body === 'pickup' ? deck + 0.6 : roofY;
  const w = halfWidth;
  const foot: PathPoint[] = [
    [w - 2.6, sill, 'corner'],
    [w - 0.9, sill + 2.4],
    [w, sill + (deck - sill) * 0.45],
    [w - 0.7, deck - 2.6],
  ];
  const shoulder: PathPoint[] =
    spec.rearEnd === 'fin tail' ? [[w - 0.8, deck - 1], ...fins(deck)] : [[w - 2.1, deck - 0.7]];
  const closedTop: PathPoint[] = upright
    ? [
        [w - 2.4, deck + 1],
        [w - 4.2, roof - 3.4],
        [w - 6, roof - 1],
        [w - 10, roof - 0.1],
        [0, roof + 0.5],
      ]
    : [
        [w - 4.4, deck + 0.1, 'corner'],
        [w - 6.6, deck + (roof - deck) * 0.55],
        [w - 8.2, roof - 1.7],
        [w - 10.6, roof - 0.4],
        [0, roof + 0.3],
      ];
  const openTop: PathPoint[] = [
    [w - 5, deck + 0.2],
    [0, deck + 1],
  ];
  const cabin = side.roof !== null && spec.body !== 'pickup';
  return {
    half: [...foot, ...shoulder, ...(cabin ? closedTop : openTop)],
    sill,
    deck,
    roof: cabin ? roof : deck + 0.8,
    slope: upright ? 9 : spec.body === 'fastback' || spec.body === 'wedge prototype' ? 58 : 42,
    hasRoof: cabin,
  };
};
