import type { FinishState, Grade } from '../../../valuation/words.ts';
import type { Random } from '../random.ts';

/** What the owner wrote about a car, by its state; each line is used once before any comes again. */
const lines: Record<'high' | 'middle' | 'low' | Exclude<FinishState, 'original'>, string[]> = {
  high: [
    'Never run, I think: no track marks on the base at all.',
    'Lacquer still has its first depth. Handle by the base only.',
    'Light ring of toning under the glass, otherwise as made. Not to be polished.',
    'Came in a cut-down card. The card is in the flat file, the car stays here.',
    'Small casting flaw by the rear arch, under the lacquer, so from the works.',
    'The best of this casting I have had in hand. Compared with two others at the fair.',
    'Runs straight and quick. Somebody oiled it and wiped it, bless them.',
    'A faint thumb mark in the lacquer: packed at the works before it was dry.',
    'Looks lighter than the chip in daylight. Second photograph is truer.',
    'Held for two years before I was let buy it.',
  ],
  middle: [
    'Honest play wear. Everything on it is its own.',
    'Rubbed along one edge where a thumb went. I like it as it is.',
    'Cleaned with water and a soft brush, nothing else. Came up a full half point.',
    'Paint is sound apart from the nose. Would be a pity to strip.',
    'Axle straightened cold, both wheels true now.',
    'Somebody has written a number on the base in ink. Left alone.',
    'Tail chipped, nose nearly clean. Better from the front.',
    'Toned more on the side that faced the window.',
    'Wheels cleaned with warm water; plating better than expected.',
    'Smelled of pipe smoke for a month.',
    'Two small dents, lacquer unbroken. Not worth pushing out.',
    'Had it apart? No: both posts are still the factory’s.',
    'Three evenings with a soft brush and warm water.',
    'Shows better than it grades. Photograph flatters it.',
    'One of two of these in the house; keep the other if one must go.',
  ],
  low: [
    'Chipped all over but the casting is straight: a candidate.',
    'Sandpit car. Ran it under the tap until the water came clear.',
    'Zinc is sound, no bloom, no cracks by the posts.',
    'Both axles bent the same way. Trodden on once, hard.',
    'Enough lacquer left in the door lines to match the shade.',
    'Bitten. Tooth marks at the left rear.',
    'Base letters full of clay, picked out with a cocktail stick.',
    'Left out in the rain for a summer or two, I should think.',
    'A sorry thing, but the casting rings true when tapped.',
    'Bought for parts, kept because I went soft on it.',
    'Rust on the axles only; freed with oil overnight.',
    'No hope of keeping this finish. Good practice piece.',
    'Shade under the base paint shows it was lighter when new.',
    'Rear post cracked. Any opening would finish it.',
  ],
  'touched up': [
    'Nose touched in with nail varnish, nearly the right shade. It shows in daylight.',
    'Felt pen on the chips, by the look of it. Comes off with a damp cloth; have not tried further.',
    'Sill brushed over in the sixties with model enamel. Old enough to leave.',
    'Touched up by the seller and not declared. Money back on ten of it.',
    'Roof edge blended with an airbrush, quite well.',
  ],
  restored: [
    'Restored before I had it, no record of the work. Graded and priced as restored.',
    'Screw in the base, lacquer too thick in the door lines. Good from a yard off.',
    'Shade matched from inside the door line. Not quite: a touch red.',
    'An honest restoration, said so on the label under the base.',
    'Better than new, which is the trouble with it.',
  ],
  customised: [
    'Repainted as the works never did. Nicely done, no use to the series.',
    'Somebody had a whole afternoon and four tins of paint. Fun on the floor.',
    'By hand, about 1975. The boy had talent.',
    'Bright and cheerful, and further from the original than a bad one.',
    'Brush marks under the paint, so it was done more than once. Made somebody happy.',
  ],
  stripped: [
    'Stripped by somebody who then lost heart. Casting clean, no pitting.',
    'Acid went too far at the tail, the letters are soft.',
    'Bare, washed and waxed to keep the bloom off. Waiting for lacquer.',
    'Came bare in the box. No trace of lacquer even under the base.',
  ],
};

/** Hands out each state's lines in an order of its own. */
export const carNotes = (random: Random): ((grade: Grade, finishState: FinishState) => string) => {
  const queues = new Map<string, string[]>();
  return (grade, finishState) => {
    const kind =
      finishState !== 'original' ? finishState : grade >= 7.5 ? 'high' : grade >= 4.5 ? 'middle' : 'low';
    const queue = queues.get(kind) ?? [];
    if (queue.length === 0) queue.push(...random.shuffle(lines[kind]));
    queues.set(kind, queue);
    return queue.pop()!;
  };
};
