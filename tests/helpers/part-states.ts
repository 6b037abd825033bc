import type { FactorySpecification, PartState } from '../../valuation/types.ts';

/** A factory specification as many have it, but for what is given. */
export const spec = (known: Partial<FactorySpecification> = {}): FactorySpecification => ({
  bodyFinish: 'candy lacquer',
  basePaint: 'none',
  roof: 'body colour',
  rearEnd: '',
  accessory: '',
  glazing: 'clear',
  interior: 'ivory',
  parts: null,
  captiveBearings: false,
  ...known,
});

/** The state of a part. */
export const graded = (
  part: PartState['part'],
  grade: number | null,
  originality: PartState['originality'] = 'original',
): PartState => ({ part, grade, originality });
