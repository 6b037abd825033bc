import { LimitField } from './limit-field.tsx';
import classes from './season.module.css';

/** Every part that a plan asks for: how many the season takes, and how many there are or may be bought. */
export const PartsLimits = ({
  parts,
  limits,
  onChange,
}: {
  parts: Record<string, number>;
  limits: ReadonlyMap<string, number | null>;
  onChange: (name: string, limit: number | null) => void;
}) =>
  limits.size === 0 ? (
    <p className={classes.noParts}>
      No plan asks for a scarce part. Name one in a line of a car’s plan, and it is counted here.
    </p>
  ) : (
    <table className={classes.partsTable}>
      <caption>Scarce parts: what is on the shelf, unless you set another limit</caption>
      <thead>
        <tr>
          <th scope="col">Part</th>
          <th scope="col">Used</th>
          <th scope="col">At most</th>
        </tr>
      </thead>
      <tbody>
        {[...limits].map(([name, limit]) => {
          const used = parts[name] ?? 0;
          return (
            <tr key={name} data-over={(limit !== null && used > limit) || undefined}>
              <th scope="row">{name}</th>
              <td>{used}</td>
              <td>
                <LimitField
                  label={`Most ${name} to use`}
                  value={limit}
                  whole
                  onChange={value => onChange(name, value)}
                />
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
