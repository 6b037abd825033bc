import type { ThreePoint, WorkStep } from '../../types.ts';
import type { Closure, Hazard } from '../../words.ts';
import { paints, step, three } from './step.ts';

const close = (
  closure: Closure,
  name: string,
  material: string,
  cost: ThreePoint,
  hazards: readonly Hazard[],
): WorkStep =>
  step({
    id: closure === 'as made' ? 'close-as-made' : `close-${closure}`,
    name,
    kinds: paints,
    part: 'post and rivet closure',
    call: { closures: [closure] },
    after: ['look-before-closing'],
    hands: three(3, 6, 15),
    waiting: closure === 'glue' ? three(60, 720, 1440) : three(0, 0, 0),
    materials: [{ name: material, kind: 'material', cost }],
    hazards,
    spoilChance: closure === 'as made' ? 0.01 : 0.002,
    spoiledShare: 0.6,
  });

/** From the parts to the closed car. */
export const closingSteps: readonly WorkStep[] = [
  step({
    id: 'wheels-on',
    name: 'Fit axles and wheels, snug and turning freely',
    kinds: paints,
    part: 'wheels',
    after: ['straighten-axles', 'fit-axles', 'clean-wheels', 'fit-wheels', 'brighten-base', 'paint-base'],
    hands: three(5, 10, 25),
    hazards: ['tools'],
    spoilChance: 0.002,
    spoiledShare: 0.8,
  }),
  step({
    id: 'assemble',
    name: 'Assemble in the order that the casting asks for',
    kinds: paints,
    after: [
      'wheels-on',
      'polish-glazing',
      'fit-glazing',
      'clean-interior',
      'fit-interior',
      'mask-roof',
      'finish-tail',
      'clear-coat',
      'coat-wet',
    ],
    hands: three(6, 12, 30),
    spoilChance: 0.002,
    spoiledShare: 0.8,
  }),
  step({
    id: 'look-before-closing',
    name: 'Look it over before it is closed: glazing front and rear, roof, base, interior, axles, wheels',
    kinds: paints,
    after: ['assemble', 'fit-labels', 'fit-accessory', 'clean-accessory'],
    hands: three(2, 4, 8),
  }),
  close('screw', 'Close it with countersunk screws', 'Countersunk screws', three(15, 30, 60), ['tools']),
  close(
    'rivet',
    'Close it with reproduction rivets, set by hand',
    'Reproduction rivets',
    three(40, 80, 160),
    ['tools'],
  ),
  close('glue', 'Close it with a drop of glue on each post', 'Glue, share', three(5, 15, 40), ['resins']),
  close(
    'as made',
    'Close it with its own posts, set again as the factory did',
    'Setting tool, share',
    three(20, 40, 90),
    ['tools'],
  ),
  step({
    id: 'photograph-after',
    name: 'Photograph it as it is now',
    kinds: ['conserve', 'restore', 'customise', 'donor'],
    after: [
      'close-screw',
      'close-rivet',
      'close-glue',
      'close-as-made',
      'bag-parts',
      'wash-outside',
      'polish-glazing-outside',
      'straighten-axles',
      'clean-wheels',
      'clean-accessory',
    ],
    hands: three(3, 5, 10),
  }),
];
