import { Button } from '@mantine/core';
import { useState } from 'react';
import type { ImportResult } from '../../../../electron/api/views.ts';
import { saveCsv } from '../../../components/files/save-file.ts';
import classes from './import.module.css';
import { plainColumn, rejectedCsv } from './import-choice.ts';

const page = 100;

/** Every row that could not be taken: its line in the file, the column, and why. */
export const RejectedRows = ({
  rejected,
  fileName,
}: {
  rejected: ImportResult['rejected'];
  fileName: string;
}) => {
  const [shown, setShown] = useState(page);
  return (
    <>
      <table className={classes.rejected}>
        <thead>
          <tr>
            <th scope="col">Line</th>
            <th scope="col">Column</th>
            <th scope="col">Why</th>
          </tr>
        </thead>
        <tbody>
          {rejected.slice(0, shown).map(({ line, column, reason }) => (
            <tr key={`${line} ${column}`}>
              <td className={classes.line}>{line}</td>
              <td>{column === null ? '' : plainColumn(column)}</td>
              <td>{reason}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className={classes.below}>
        {rejected.length > shown ? (
          <Button variant="subtle" onClick={() => setShown(shown + 10 * page)}>
            Show more of the {rejected.length.toLocaleString()}
          </Button>
        ) : null}
        <Button
          onClick={() => saveCsv(rejectedCsv(rejected), `${fileName.replace(/\.[^.]+$/, '')} rejected.csv`)}
        >
          Save this list as CSV
        </Button>
      </p>
    </>
  );
};
