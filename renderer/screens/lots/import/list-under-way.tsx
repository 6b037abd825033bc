import type { ReactNode } from 'react';
import { errorSentence } from '../../../api/error-sentence.ts';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import type { WaysIn } from './before-list.tsx';
import { ChooseSpreadsheet } from './choose-spreadsheet.tsx';
import classes from './import.module.css';
import type { ListKind, Source } from './import-choice.ts';
import { KindSwitch } from './kind-switch.tsx';
import { ChangeText } from './paste-text.tsx';

/**
 * The page of a list that is looked at: how it is read at the left, what will be taken at the right; what is
 * wrong, or that it is being read, until both are known.
 */
export const ListUnderWay = ({
  as,
  source: { file, pasted },
  ways,
  error,
  busy,
  read,
  taken,
}: {
  as: ListKind;
  source: Source;
  ways: WaysIn;
  error: Error | null;
  /** It is being read again. */
  busy?: boolean;
  read: ReactNode | null;
  taken: ReactNode | null;
}) => (
  <>
    <PageHeader
      title={file.name}
      facts="Nothing is imported until you confirm"
      back={{ label: 'Lots', to: '/lots' }}
      actions={
        <>
          <KindSwitch as={as} onKind={ways.onKind} />
          {pasted === null ? null : <ChangeText text={pasted} onText={ways.onText} />}
          <ChooseSpreadsheet
            label={pasted === null ? 'Another file' : 'A file instead'}
            onFile={ways.onFile}
          />
        </>
      }
    />
    <div className={`page ${classes.split}`}>
      <div className={classes.left} aria-busy={busy}>
        {error ? (
          <p className={classes.problem} role="alert">
            {errorSentence(error)}
          </p>
        ) : (
          (read ?? <LoadingState part label="Reading the file" />)
        )}
      </div>
      <aside className={classes.right} aria-label="What will be imported">
        {error ? null : taken}
      </aside>
    </div>
  </>
);

/** What the file says of itself, above its rows. */
export const FileNotes = ({ notes }: { notes: readonly string[] }) =>
  notes.length > 0 ? (
    <ul className={classes.warnings}>
      {notes.map(note => (
        <li key={note}>{note}</li>
      ))}
    </ul>
  ) : null;
