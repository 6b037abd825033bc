import type { Grade, Originality, PartName } from '../../../valuation/words.ts';
import type { Random } from '../random.ts';

type Band = 'good' | 'fair' | 'poor';

/** What one writes beside a part, by how it has fared. Most parts get no word at all. */
const notes: Partial<Record<PartName, Record<Band, string[]>>> = {
  'body finish': {
    good: [
      'Deep shade, no toning',
      'One pinprick by the arch',
      'Gloss as it left the booth',
      'A single rub on the tail',
    ],
    fair: [
      'Edge chips all round',
      'Bright along the sill',
      'Toned evenly, no touch-up under the glass',
      'Nose rubbed',
    ],
    poor: [
      'More zinc than lacquer on the left side',
      'Toned nearly brown',
      'Chewed at the corners',
      'Scratched to metal across the nose',
    ],
  },
  roof: {
    good: ['Clean to the edges'],
    fair: ['Rubbed through at the crown', 'Texture thin in the middle'],
    poor: ['Bare across the middle', 'Flattened a touch, left side'],
  },
  base: {
    good: ['Bright, lettering sharp'],
    fair: ['Dull, lettering clear', 'Tint gone at the bumpers'],
    poor: [
      'White bloom, not yet pitted',
      'Bent at the tail, straightens cold',
      'Name scratched in by a child',
    ],
  },
  glazing: {
    good: ['Clear, no cracks', ''],
    fair: ['Haze, will polish', 'One hairline at the pillar'],
    poor: ['Cracked across', 'Front half only', 'Melted in one corner'],
  },
  interior: {
    good: ['', 'Clean'],
    fair: ['Dusty, nothing broken', 'Wheel bent'],
    poor: ['Seat back snapped', 'Steering wheel gone', 'Ink on the seats'],
  },
  wheels: {
    good: ['All four bright and round', 'Plating whole'],
    fair: ['Plating worn on the rims', 'One hub rubbed'],
    poor: ['Plating gone', 'One wheel split', 'Odd pair at the rear'],
  },
  axles: {
    good: ['Straight, runs true', ''],
    fair: ['Slight toe-in at the front', 'Dry, runs after oil'],
    poor: ['Both bent', 'Rear axle bowed up', 'Rusted in the channel'],
  },
  accessory: {
    good: ['Present and tight'],
    fair: ['Loose in its clip'],
    poor: ['One half left', 'Glued on, badly'],
  },
  labels: {
    good: ['Square and white'],
    fair: ['Edges lifting'],
    poor: ['Half torn away', 'Brown with old glue'],
  },
  'post and rivet closure': {
    good: ['Untouched', 'Factory peening, never opened'],
    fair: ['Untouched, front one loose'],
    poor: ['Pried at with a knife, still holds', 'Rear post cracked'],
  },
};

const missing: Partial<Record<PartName, string>> = {
  accessory: 'Gone',
  labels: 'None left',
  glazing: 'Gone but for the locating stub',
  wheels: 'Two gone',
  interior: 'Gone',
};

const replaced: Partial<Record<PartName, string>> = {
  wheels: 'Turned alloy hubs, a shade too bright',
  labels: 'Printed film; the originals were paper',
  glazing: 'Vacuum-formed, thinner than the old piece',
  accessory: 'Cast resin, painted',
};

/** What an owner would note of a part in this condition; may be empty. */
export const partNote = (
  random: Random,
  part: PartName,
  grade: Grade | null,
  originality: Originality,
): string => {
  if (originality === 'missing') return missing[part] ?? 'Missing';
  if (originality === 'reproduction') return replaced[part] ?? 'Reproduction';
  if (originality === 'period replacement') return 'Of the time, from another casting';
  const band: Band = (grade ?? 5) >= 7.5 ? 'good' : (grade ?? 5) >= 4.5 ? 'fair' : 'poor';
  const said = notes[part]?.[band];
  return said && (part === 'body finish' || random.chance(0.55)) ? random.pick(said) : '';
};
