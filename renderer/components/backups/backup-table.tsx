import { Button } from '@mantine/core';
import type { BackupInfo } from '../../../electron/api/views.ts';
import classes from './backups.module.css';
import { aboutText, holdsText, madeText, sizeText } from './texts.ts';

const stateText = ({ kind, wrong }: BackupInfo, sound: string): string | null =>
  kind !== 'backup' ? null : wrong ? 'Damaged' : sound;

/**
 * Every folder among a collection's backups: when it was made, why or what is wrong with it, what it holds,
 * and its restoring.
 */
export const BackupTable = ({
  backups,
  sound,
  onRestore,
}: {
  backups: readonly BackupInfo[];
  /** What to call one in which nothing is wrong: that depends on whether it has been read to its end. */
  sound: string;
  /** Left out where nothing can be restored just now. */
  onRestore?: ((backup: BackupInfo) => void) | undefined;
}) => (
  // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys
  <section className={classes.tall} tabIndex={0} aria-label="Backups, newest first">
    <table className={classes.table}>
      <thead>
        <tr>
          <th scope="col">Made</th>
          <th scope="col">State</th>
          <th scope="col">Because</th>
          <th scope="col">Holds</th>
          <th scope="col" className="amount">
            Size
          </th>
          <th scope="col">
            <span className="heard">Restore</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {backups.map(backup => (
          <tr key={backup.name}>
            <th scope="row">{madeText(backup)}</th>
            <td className={backup.wrong ? classes.damaged : undefined}>{stateText(backup, sound)}</td>
            <td className={classes.about}>{aboutText(backup)}</td>
            <td>{holdsText(backup)}</td>
            <td className="amount">{backup.bytes === null ? '' : sizeText(backup.bytes)}</td>
            <td className="amount">
              {backup.restorable !== 'no' && onRestore ? (
                <Button
                  size="compact-xs"
                  aria-label={`Restore the backup of ${madeText(backup)}`}
                  onClick={() => onRestore(backup)}
                >
                  Restore …
                </Button>
              ) : null}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  </section>
);
