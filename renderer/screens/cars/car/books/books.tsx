import type { CarPage } from '../../../../../electron/api/views.ts';
import type { Currency, IsoDate } from '../../../../../valuation/types.ts';
import { Section } from '../../../../components/layout/section.tsx';
import classes from './books.module.css';
import { Expenses } from './expenses.tsx';
import { Sale } from './sale.tsx';

/** What the car cost, what was spent on it, and what it brought. */
export const Books = ({ car, currency, today }: { car: CarPage; currency: Currency; today: IsoDate }) => (
  <Section id="books" title="Cost and sale" aside={car.disposal ? 'sold' : undefined}>
    <div className={classes.books}>
      <Expenses car={car} currency={currency} today={today} />
      <Sale car={car} currency={currency} today={today} />
    </div>
  </Section>
);
