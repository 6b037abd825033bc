import { Link } from 'wouter';
import type { SoldCarRow } from '../../../../electron/api/views.ts';
import { carColour, carTitle } from '../../../../valuation/wording/cars/car-names.ts';
import { signedText } from '../../../../valuation/wording/reader.ts';
import { carGradeLabel } from '../../../../valuation/words.ts';
import { Amount } from '../../../components/amounts/amount.tsx';
import type { GridColumn } from '../../../components/data-grid/types.ts';
import { dateText, readerLocale } from '../../../components/format.ts';
import { LacquerChip } from '../../../components/lacquer-chip/lacquer-chip.tsx';
import { GradeBadge } from '../../../components/marks/grade-badge.tsx';
import { readerWords } from '../../../components/words.ts';
import classes from './sold.module.css';

const Text = ({ text }: { text: string }) => (
  <span className={classes.cell} title={text}>
    {text}
  </span>
);

/** What was gained is known to the cent, as what it was sold for is. */
const Gain = ({ car: { gain, currency } }: { car: SoldCarRow }) =>
  gain === null ? (
    <span className="soft">not known</span>
  ) : (
    <span className="tabular">{signedText(gain, { locale: readerLocale(), currency })}</span>
  );

/** The columns of the list of cars that were sold; each amount beside its currency, since none is converted. */
export const soldColumns = (): GridColumn<SoldCarRow>[] => [
  {
    id: 'number',
    title: 'Number',
    width: 84,
    pinned: true,
    value: car => car.inventoryNumber,
    render: car => (
      <Link href={`~/cars/${car.carId}`} tabIndex={-1} className={classes.number}>
        {car.inventoryNumber}
      </Link>
    ),
  },
  {
    id: 'name',
    title: 'Name, casting',
    width: 128,
    grow: 1,
    value: carTitle,
    render: car => <Text text={carTitle(car)} />,
  },
  { id: 'soldOn', title: 'Sold on', width: 96, value: car => car.soldOn, text: car => dateText(car.soldOn) },
  {
    id: 'proceeds',
    title: 'Proceeds',
    width: 88,
    align: 'end',
    value: car => car.proceeds,
    render: car => <Amount minor={car.proceeds} currency={car.currency} />,
  },
  {
    id: 'fees',
    title: 'Fees',
    width: 72,
    align: 'end',
    value: car => car.fees,
    render: car => <Amount minor={car.fees} currency={car.currency} />,
  },
  {
    id: 'gain',
    title: 'Gain',
    width: 84,
    align: 'end',
    value: car => car.gain,
    render: car => <Gain car={car} />,
  },
  { id: 'currency', title: 'Currency', width: 80, value: car => car.currency },
  {
    id: 'colour',
    title: readerWords().features.colour,
    width: 116,
    grow: 1,
    value: carColour,
    render: car => <LacquerChip name={carColour(car)} swatch={car.swatch} />,
  },
  {
    id: 'grade',
    title: 'Sold as',
    width: 112,
    value: car => car.grade,
    text: car => (car.grade === null ? '' : readerWords().spell(carGradeLabel(car.grade, car.finishState))),
    render: car => <GradeBadge grade={car.grade} finishState={car.finishState} />,
  },
  {
    id: 'buyer',
    title: 'Buyer',
    width: 128,
    grow: 2,
    value: car => car.buyer,
    render: car => <Text text={car.buyer} />,
  },
  {
    id: 'venue',
    title: 'Where',
    width: 128,
    grow: 2,
    value: car => car.venue,
    render: car => <Text text={car.venue} />,
  },
];
