import { NativeSelect } from '@mantine/core';
import type { Encoding, ImportPreview, Separator } from '../../../../electron/api/views.ts';
import { encodingNames, separatorNames } from '../../../../valuation/wording/file-words.ts';
import classes from './import.module.css';
import type { ImportChoice } from './import-choice.ts';

const options = <T extends string>(names: Record<T, string>): { value: T; label: string }[] =>
  Object.entries<string>(names).map(([value, label]) => ({ value: value as T, label }));

/** How the file was read, in words, each of which can be said otherwise. */
export const FileFacts = ({
  preview,
  choice,
  onChange,
  pasted,
}: {
  pasted: boolean;
  preview: ImportPreview;
  choice: ImportChoice;
  onChange: (choice: ImportChoice) => void;
}) => {
  const { format, encoding, encodingBecause, separator, sheets, sheet, headingLine, rows } = preview;
  return (
    <div className={classes.facts}>
      {format === 'csv' ? (
        <>
          {pasted ? null : (
            <NativeSelect
              label="Characters"
              value={encoding ?? undefined}
              data={options(encodingNames)}
              onChange={event => onChange({ ...choice, encoding: event.currentTarget.value as Encoding })}
            />
          )}
          <NativeSelect
            label="Separated by"
            value={separator ?? undefined}
            data={options(separatorNames)}
            onChange={event => onChange({ ...choice, separator: event.currentTarget.value as Separator })}
          />
        </>
      ) : (
        <NativeSelect
          label="Sheet"
          value={sheet ?? ''}
          data={[...(sheets.length > 1 ? [{ value: '', label: 'all that are not hidden' }] : []), ...sheets]}
          onChange={event =>
            onChange({
              as: choice.as,
              lotId: choice.lotId,
              addReference: choice.addReference,
              map: {},
              decimal: {},
              dateOrder: {},
              ...(event.currentTarget.value && { sheet: event.currentTarget.value }),
            })
          }
        />
      )}
      <p>
        {encoding === null || pasted
          ? ''
          : `Read as ${encodingNames[encoding]}${encodingBecause === null ? '' : `, since ${encodingBecause}`}. `}
        {headingLine === 0 ? 'There are no headings' : `The headings are on line ${headingLine}`};{' '}
        {rows.toLocaleString()} rows are filled.
      </p>
    </div>
  );
};
