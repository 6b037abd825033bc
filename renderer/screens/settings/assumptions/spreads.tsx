import type { AssumptionSet } from '../../../../valuation/types.ts';
import classes from './assumptions.module.css';
import type { PartOfDraft } from './draft.ts';
import { FigureField } from './figure-field.tsx';
import { spread } from './figures.ts';

type Prior = AssumptionSet['prior'];

const apart: { key: keyof Prior; label: string; help?: string }[] = [
  { key: 'within', label: 'Two sales of the same car', help: 'about their shared value' },
  { key: 'betweenVariations', label: 'Variations of a casting' },
  { key: 'betweenCastings', label: 'Castings of a series' },
  { key: 'betweenSeries', label: 'Series' },
];
const pulled: { key: keyof Prior; label: string }[] = [
  { key: 'gradeStep', label: 'One step of a grade curve' },
  { key: 'finish', label: 'Effect of a finish' },
  { key: 'rarity', label: 'Effect of a rarity' },
  { key: 'trend', label: 'The trend of one year' },
];

/** How far prices are assumed to lie apart, and how far records may move what is assumed. */
export const Spreads = ({ draft, set }: PartOfDraft) => {
  const field = ({ key, label, help }: { key: keyof Prior; label: string; help?: string }) => (
    <FigureField
      key={key}
      label={label}
      {...(help && { help })}
      value={draft.prior[key]}
      kind={spread}
      onChange={value => set({ prior: { ...draft.prior, [key]: value } })}
    />
  );
  return (
    <details className={classes.details}>
      <summary>How much prices vary, and how far records may change these figures</summary>
      <p className={classes.note}>
        In standard deviations of the natural log of price: 0.1 is about a tenth up or down, 0.35 about a
        third, 0.7 a doubling or halving. With enough records, the spread of prices is found from them and
        these figures matter less.
      </p>
      <div className={classes.columns}>
        <div>
          <h4>Assumed spread of prices</h4>
          {apart.map(field)}
          <FigureField
            label="Weight of this assumption, in sales"
            value={draft.prior.strength}
            kind={{ ...spread, most: 10_000, digits: 1 }}
            onChange={strength => set({ prior: { ...draft.prior, strength } })}
          />
        </div>
        <div>
          <h4>How far records may change it</h4>
          {pulled.map(field)}
          <FigureField
            label="How closely one car’s values move together"
            help="0 not at all, 1 completely, beyond what they already share"
            value={draft.decision.worthCorrelation}
            kind={{ ...spread, most: 1, digits: 2 }}
            onChange={worthCorrelation => set({ decision: { ...draft.decision, worthCorrelation } })}
          />
        </div>
      </div>
    </details>
  );
};
