import { NativeSelect } from '@mantine/core';
import type { ImportPreview } from '../../../../electron/api/views.ts';
import classes from './import.module.css';
import type { ImportChoice } from './import-choice.ts';

const separators = { ',': 'commas', ';': 'semicolons', '\t': 'tabs', '|': 'bars' };
const encodings = {
  'utf-8': 'UTF-8',
  'windows-1252': 'Windows-1252',
  'utf-16le': 'UTF-16, little-endian',
  'utf-16be': 'UTF-16, big-endian',
};

/** How the file was read, in words, each of which can be said otherwise. */
export const FileFacts = ({
  preview,
  choice,
  onChange,
}: {
  preview: ImportPreview;
  choice: ImportChoice;
  onChange: (choice: ImportChoice) => void;
}) => {
  const { format, sheets, sheet, headingLine, rows } = preview;
  const found = Object.keys(encodings).find(name => preview.encoding.startsWith(name)) ?? 'utf-8';
  const because = /\(([^)]*)\)/.exec(preview.encoding)?.[1];
  return (
    <div className={classes.facts}>
      {format === 'csv' ? (
        <>
          <NativeSelect
            label="Characters"
            value={found}
            data={Object.entries(encodings).map(([value, label]) => ({ value, label }))}
            onChange={event =>
              onChange({ ...choice, encoding: event.currentTarget.value as keyof typeof encodings })
            }
          />
          <NativeSelect
            label="Separated by"
            value={preview.separator}
            data={Object.entries(separators).map(([value, label]) => ({ value, label }))}
            onChange={event =>
              onChange({ ...choice, separator: event.currentTarget.value as keyof typeof separators })
            }
          />
        </>
      ) : (
        <NativeSelect
          label="Sheet"
          value={sheet ?? ''}
          data={sheets}
          onChange={event =>
            onChange({
              as: choice.as,
              lotId: choice.lotId,
              addReference: choice.addReference,
              map: {},
              decimal: {},
              dateOrder: {},
              sheet: event.currentTarget.value,
            })
          }
        />
      )}
      <p>
        {format === 'csv'
          ? `Read as ${encodings[found as keyof typeof encodings]}${because && because !== 'chosen' ? `, since ${because}` : ''}. `
          : ''}
        The headings are on line {headingLine}; {rows.toLocaleString()} rows below them are filled.
      </p>
    </div>
  );
};
