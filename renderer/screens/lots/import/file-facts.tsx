import { NativeSelect } from '@mantine/core';
import type { Encoding, ImportPreview, Separator } from '../../../../electron/api/views.ts';
import { encodingNames, separatorNames } from '../../../../valuation/wording/file-words.ts';
import { counted } from '../../../components/format.ts';
import classes from './import.module.css';
import type { ImportChoice } from './import-choice.ts';

const options = <T extends string>(names: Record<T, string>): { value: T; label: string }[] =>
  Object.entries<string>(names).map(([value, label]) => ({ value: value as T, label }));

const longestHeadings = 48;

const headingsText = (cells: readonly string[]): string => {
  const text = cells.filter(Boolean).join(' · ');
  return text.length > longestHeadings ? `${text.slice(0, longestHeadings)} …` : text;
};

/** Which line holds the headings: the one that was taken, others that may, or none. */
const headingChoices = ({ headingLine, headingLines, columns }: ImportPreview) => {
  const lines = new Map(headingLines.map(({ line, cells }) => [line, headingsText(cells)]));
  if (headingLine > 0) lines.set(headingLine, headingsText(columns.map(({ heading }) => heading)));
  return [
    ...[...lines]
      .sort(([a], [b]) => a - b)
      .map(([line, text]) => ({ value: String(line), label: `line ${line}: ${text}` })),
    { value: '0', label: 'there are none' },
  ];
};

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
  /** What was said of columns holds for the headings that they had. */
  const { as, lotId, lots, addReference, encoding: said, separator: by } = choice;
  const fresh: ImportChoice = {
    ...{ as, lotId, addReference, map: {}, decimal: {}, dateOrder: {} },
    ...(lots && { lots }),
    ...(said && { encoding: said }),
    ...(by && { separator: by }),
  };
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
      ) : format === 'jsonl' ? null : (
        <NativeSelect
          label="Sheet"
          value={sheet ?? ''}
          data={[...(sheets.length > 1 ? [{ value: '', label: 'all that are not hidden' }] : []), ...sheets]}
          onChange={event =>
            onChange({ ...fresh, ...(event.currentTarget.value && { sheet: event.currentTarget.value }) })
          }
        />
      )}
      <NativeSelect
        className={classes.headings}
        label="Headings"
        value={String(headingLine)}
        data={headingChoices(preview)}
        onChange={event =>
          onChange({
            ...fresh,
            ...(choice.sheet && { sheet: choice.sheet }),
            headingLine: Number(event.currentTarget.value),
          })
        }
      />
      <p>
        {encoding === null || pasted
          ? ''
          : `Read as ${encodingNames[encoding]}${encodingBecause === null ? '' : `, since ${encodingBecause}`}. `}
        {counted(rows, 'row is', 'rows are')} filled.
      </p>
    </div>
  );
};
