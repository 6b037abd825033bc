import type { ColourOnShelf } from '../../../../../electron/api/views.ts';
import { LacquerChip } from '../../../../components/lacquer-chip/lacquer-chip.tsx';
import classes from './season-colours.module.css';

/**
 * The shelf as one strip: every colour as wide as it has cars, in the order of `order`, so that two strips
 * can be held against each other.
 */
const Strip = ({
  label,
  shelf,
  order,
}: {
  label: string;
  shelf: readonly ColourOnShelf[];
  order: readonly ColourOnShelf[];
}) => {
  const counts = new Map(shelf.map(({ colour, count }) => [colour, count]));
  const words = shelf.map(({ colour, count }) => `${colour} ${count}`).join(', ');
  return (
    <div className={classes.strip}>
      <span className={classes.label}>{label}</span>
      <span className={classes.bands} role="img" aria-label={`${label}: ${words || 'none'}`}>
        {order.map(({ colour, swatch }) => {
          const count = counts.get(colour) ?? 0;
          return count === 0 ? null : (
            <span
              key={colour}
              className={classes.band}
              title={`${colour} ${count}`}
              style={{ flexGrow: count, ...(swatch && { backgroundColor: swatch }) }}
            />
          );
        })}
      </span>
    </div>
  );
};

/** The shelf now and then, and the colours of which there will be more or fewer. */
export const ShelfStrips = ({
  before,
  after,
}: {
  before: readonly ColourOnShelf[];
  after: readonly ColourOnShelf[];
}) => {
  const known = new Set(before.map(({ colour }) => colour));
  const order = [...before, ...after.filter(({ colour }) => !known.has(colour))];
  const count = (shelf: readonly ColourOnShelf[], colour: string) =>
    shelf.find(one => one.colour === colour)?.count ?? 0;
  const moved = order.filter(({ colour }) => count(before, colour) !== count(after, colour));
  return (
    <>
      <Strip label="Shelf now" shelf={before} order={order} />
      <Strip label="Then" shelf={after} order={order} />
      {moved.length > 0 ? (
        <ul className={classes.moved}>
          {moved.map(({ colour, swatch }) => (
            <li key={colour}>
              <LacquerChip name={colour} swatch={swatch} /> {count(before, colour)} → {count(after, colour)}
            </li>
          ))}
        </ul>
      ) : null}
    </>
  );
};
