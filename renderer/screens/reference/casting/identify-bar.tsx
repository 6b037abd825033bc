import { Button, Select } from '@mantine/core';
import type { VariationFeature } from '../../../../valuation/words.ts';
import { readerWords } from '../../../components/words.ts';
import classes from '../reference.module.css';
import type { FeatureChoice, Seen } from './narrow.ts';

/** Said for a feature that a variation does not have. */
const none = '\u0000none';

/** What can be seen on a car, feature by feature; with each answer fewer variations remain. */
export const IdentifyBar = ({
  choices,
  seen,
  remaining,
  all,
  onChange,
}: {
  choices: readonly FeatureChoice[];
  seen: Seen;
  remaining: number;
  all: number;
  onChange: (seen: Seen) => void;
}) => {
  const answer = (feature: VariationFeature, value: string | null) => {
    const { [feature]: _, ...rest } = seen;
    onChange(value === null ? rest : { ...rest, [feature]: value === none ? '' : value });
  };
  const chosen = Object.keys(seen).length;
  return (
    <div className={classes.identify}>
      {choices.map(({ feature, values }) => (
        <Select
          key={feature}
          label={readerWords().features[feature]}
          className={classes.seen}
          value={seen[feature] === '' ? none : (seen[feature] ?? null)}
          placeholder="any"
          clearable
          clearButtonProps={{ 'aria-label': `Any ${readerWords().features[feature].toLowerCase()}` }}
          comboboxProps={{ width: 'max-content', position: 'bottom-start' }}
          data={values.map(({ value, variations }) => ({
            value: value || none,
            label: `${value || 'none'}${variations === all ? '' : `  (${variations})`}`,
          }))}
          onChange={value => answer(feature, value)}
        />
      ))}
      <span className={classes.remain} role="status">
        {chosen === 0
          ? 'Choose what you see on a car'
          : remaining === 1
            ? 'One variation remains'
            : `${remaining} of ${all} remain`}
        {chosen > 0 ? (
          <Button variant="subtle" size="compact-xs" onClick={() => onChange({})}>
            Start again
          </Button>
        ) : null}
      </span>
    </div>
  );
};
