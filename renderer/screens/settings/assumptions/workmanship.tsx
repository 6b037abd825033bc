import type { AssumptionSet } from '../../../../valuation/types.ts';
import type { PartOfDraft } from './draft.ts';
import { FigureField } from './figure-field.tsx';
import { percent } from './figures.ts';

type Shares = AssumptionSet['work']['workmanship'];

/** A share changed, the others in proportion, so that they still add up to 1. */
export const withShare = (shares: Shares, at: number, share: number): Shares => {
  const wanted = Math.min(1, Math.max(0, share));
  const others = shares.reduce((sum, one, i) => (i === at ? sum : sum + one.share), 0);
  return shares.map((one, i) => ({
    ...one,
    share:
      i === at
        ? wanted
        : others > 0
          ? (one.share / others) * (1 - wanted)
          : (1 - wanted) / Math.max(1, shares.length - 1),
  }));
};

/** How often work ends so many points below what was aimed at. */
export const Workmanship = ({ draft, set }: PartOfDraft) => {
  const { workmanship } = draft.work;
  return (
    <div>
      {workmanship.map(({ short, share }, i) => (
        <FigureField
          key={short}
          label={
            short === 0
              ? 'Work ends at the grade aimed at, % of jobs'
              : `… ${short} ${short === 1 ? 'point' : 'points'} below it, % of jobs`
          }
          value={share}
          kind={percent}
          onChange={value => set({ work: { ...draft.work, workmanship: withShare(workmanship, i, value) } })}
        />
      ))}
    </div>
  );
};
