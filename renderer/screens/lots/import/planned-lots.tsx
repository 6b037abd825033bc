import { Radio } from '@mantine/core';
import type { ImportPreview, LotChoice } from '../../../../electron/api/views.ts';
import { amountText, counted, dateText } from '../../../components/format.ts';
import classes from './shows.module.css';

type Planned = ImportPreview['lots'][number];

const maxLots = 8;

const lotText = ({ cars, priced, paid, currency, isTogether }: Planned, isAlone: boolean): string =>
  [
    counted(cars, 'car'),
    priced === 0
      ? null
      : `${amountText(paid, currency)} ${currency}${priced < cars ? ` for ${priced} of them` : ''}`,
    isTogether ? 'bought together' : priced > 0 || isAlone ? 'collected one by one' : null,
  ]
    .filter(Boolean)
    .join(' · ');

/** The lots that the rows make, and the choice where the file tells of several purchases. */
export const PlannedLots = ({
  lots,
  hasChoice,
  value,
  onChange,
}: {
  lots: readonly Planned[];
  hasChoice: boolean;
  value: LotChoice;
  onChange: (value: LotChoice) => void;
}) => {
  const hasPrices = lots.some(({ priced }) => priced > 0);
  if (lots.length === 0 || (lots.length === 1 && !hasChoice && !hasPrices)) return null;
  return (
    <div className={classes.planned}>
      {hasChoice ? (
        <Radio.Group
          label="How the cars become lots"
          value={value}
          onChange={chosen => onChange(chosen as LotChoice)}
        >
          <Radio value="by purchase" label="One lot for each day and seller" />
          <Radio value="one" label="All in one lot, each car with its own day and price" />
        </Radio.Group>
      ) : (
        <h3 className={classes.plannedTitle}>{lots.length === 1 ? 'What was paid' : 'Lots'}</h3>
      )}
      <ul aria-label="Lots that the import makes">
        {lots.slice(0, maxLots).map(lot => (
          <li key={lot.name}>
            <strong>{lot.name}</strong>
            <span>{lotText(lot, hasChoice)}</span>
            {lot.boughtOn && !lot.name.includes(lot.boughtOn) ? <span>{dateText(lot.boughtOn)}</span> : null}
          </li>
        ))}
        {lots.length > maxLots ? <li>and {counted(lots.length - maxLots, 'more lot')}</li> : null}
      </ul>
    </div>
  );
};
