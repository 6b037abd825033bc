import { Textarea } from '@mantine/core';
import { useState } from 'react';
import type { CastingPage } from '../../../../electron/api/views.ts';
import { type VariationFeature, variationFeatures } from '../../../../valuation/words.ts';
import { readerWords } from '../../../components/words.ts';
import classes from '../reference.module.css';

type Values = CastingPage['featureValues'];

/** The base paint has its own few words; every other feature can take what its owner writes. */
const written = variationFeatures.filter(feature => feature !== 'basePaint');

/** One value a line; blank lines and repeats are none. */
const valuesOf = (text: string): string[] => [
  ...new Set(
    text
      .split('\n')
      .map(line => line.trim().slice(0, 200))
      .filter(Boolean),
  ),
];

const FeatureField = ({
  feature,
  values,
  onChange,
}: {
  feature: VariationFeature;
  values: readonly string[];
  onChange: (values: string[]) => void;
}) => {
  const [text, setText] = useState(values.join('\n'));
  const name = readerWords().features[feature];
  return (
    <Textarea
      label={name}
      aria-label={`Values: ${name}`}
      autosize
      minRows={1}
      maxRows={8}
      value={text}
      onChange={event => {
        setText(event.currentTarget.value);
        onChange(valuesOf(event.currentTarget.value));
      }}
    />
  );
};

/** Which values each feature of a casting can take, whether or not a variation has them yet. */
export const FeatureValues = ({
  known,
  changed,
  onChange,
}: {
  known: Values;
  /** Those of the features that were changed here. */
  changed: Values;
  onChange: (changed: Values) => void;
}) => (
  <fieldset className={classes.photos}>
    <legend>Values that each feature can take</legend>
    <p className="soft grid-text">
      One on each line. They are offered where a variation is added; those of its variations are always there.
    </p>
    <div className={classes.pair}>
      {written.map(feature => (
        <FeatureField
          key={feature}
          feature={feature}
          values={known.find(entry => entry.feature === feature)?.values ?? []}
          onChange={values =>
            onChange([...changed.filter(entry => entry.feature !== feature), { feature, values }])
          }
        />
      ))}
    </div>
  </fieldset>
);
