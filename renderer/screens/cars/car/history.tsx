import type { CarPage } from '../../../../electron/api/views.ts';
import { dateText } from '../../../components/format.ts';
import { readerWords } from '../../../components/words.ts';
import classes from './history.module.css';

const labelOf = (label: string) => readerWords().action(label);

/** What was done to this car's entries, newest first, taken-back ones struck through. */
export const History = ({ car }: { car: CarPage }) =>
  car.history.length === 0 ? (
    <p className="soft">
      Nothing has been changed yet. Give the car a grade, a place or a note above: each change is listed here,
      and undo takes the last one back.
    </p>
  ) : (
    <ol className={classes.entries}>
      {car.history.map(entry => (
        <li key={entry.id} data-undone={entry.undone || undefined}>
          <time dateTime={entry.at}>{dateText(entry.at)}</time>
          <span>
            {entry.undone ? <del>{labelOf(entry.label)}</del> : labelOf(entry.label)}
            {entry.undone ? <span className="soft"> undone</span> : null}
          </span>
        </li>
      ))}
    </ol>
  );
