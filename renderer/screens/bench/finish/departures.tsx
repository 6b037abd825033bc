import { Checkbox } from '@mantine/core';
import { type DeviationKind, deviationKinds, deviationLabel } from '../../../../valuation/words.ts';
import { readerWords } from '../../../components/words.ts';
import classes from './finish.module.css';

/** What departs from the factory specification; what follows from the rest is ticked and stays so. */
export const Departures = ({
  chosen,
  implied,
  onChange,
}: {
  chosen: readonly DeviationKind[];
  implied: readonly DeviationKind[];
  onChange: (departures: readonly DeviationKind[]) => void;
}) => (
  <fieldset className={classes.departures}>
    <legend>Departs from the factory specification</legend>
    {deviationKinds.map(kind => {
      const follows = implied.includes(kind);
      return (
        <Checkbox
          key={kind}
          label={readerWords().spell(deviationLabel(kind))}
          description={follows ? 'follows from what you say' : undefined}
          checked={follows || chosen.includes(kind)}
          disabled={follows}
          onChange={event =>
            onChange(event.currentTarget.checked ? [...chosen, kind] : chosen.filter(one => one !== kind))
          }
        />
      );
    })}
  </fieldset>
);
