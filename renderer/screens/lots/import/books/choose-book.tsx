import { useQuery } from '@tanstack/react-query';
import type { LedgerKind } from '../../../../../electron/api/views.ts';
import { api } from '../../../../api/client.ts';
import { PageHeader } from '../../../../components/layout/page-header.tsx';
import choose from '../choose.module.css';
import { DropFile } from '../drop-file.tsx';
import { bookWords, type ListKind } from '../import-choice.ts';
import { KindSwitch } from '../kind-switch.tsx';
import { PasteText } from '../paste-text.tsx';

/** The columns of each list of the books; they never change. */
const useBookColumns = (as: LedgerKind) =>
  useQuery({
    queryKey: ['ledger lists'],
    queryFn: () => api.imports.ledgerLists(),
    staleTime: Number.POSITIVE_INFINITY,
  }).data?.find(list => list.as === as)?.columns ?? [];

/** A column's name as a file may have it: in no dialect, since such a list is read by these names alone. */
const headingOf = (name: string): string => name.replaceAll('_', ' ');

/** Before there is a list of the books: the ways to hand one over, and which columns it has. */
export const ChooseBook = ({
  as,
  onKind,
  onFile,
  onText,
}: {
  as: LedgerKind;
  onKind: (as: ListKind) => void;
  onFile: (file: File) => void;
  onText: (text: string) => void;
}) => {
  const columns = useBookColumns(as);
  return (
    <>
      <PageHeader
        title="Import a spreadsheet"
        facts="You see what happens to the rows before anything is imported"
        back={{ label: 'Lots', to: '/lots' }}
      />
      <div className={`page ${choose.choose}`}>
        <KindSwitch as={as} onKind={onKind} />
        <div className={choose.ways}>
          <div className={choose.drop}>
            <p className={choose.dropLead}>Drop a CSV or XLSX file here</p>
            <DropFile label="Choose a file" primary onFile={onFile} />
          </div>
          <PasteText
            example={columns.flatMap(({ name, required }) => (required ? [headingOf(name)] : [])).join('\t')}
            onText={onText}
          />
        </div>
        <dl className={choose.about}>
          <dt>What it reads</dt>
          <dd>
            {bookWords[as].about} The lists that this program exports come back as they are; in a list of your
            own, the first line names the columns as below, in any order.
          </dd>
          <dt>Columns</dt>
          <dd>
            <ul className={choose.bookColumns}>
              {columns.map(({ name, help, required }) => (
                <li key={name}>
                  <strong>{headingOf(name)}</strong>
                  {required ? ' (needed)' : ''}: {help}
                </li>
              ))}
            </ul>
          </dd>
          {as === 'lots' ? null : (
            <>
              <dt>Its cars</dt>
              <dd>
                Each row names a car that is in the collection by its inventory number: import the cars first.
              </dd>
            </>
          )}
        </dl>
      </div>
    </>
  );
};
