import { useQuery } from '@tanstack/react-query';
import type { LedgerKind } from '../../../../../electron/api/views.ts';
import { api } from '../../../../api/client.ts';
import { readerWords } from '../../../../components/words.ts';
import { BeforeList, type WaysIn } from '../before-list.tsx';
import choose from '../choose.module.css';
import { bookWords } from '../import-choice.ts';

/** The columns of each list of the books; they never change. */
const useBookColumns = (as: LedgerKind) =>
  useQuery({
    queryKey: ['ledger lists'],
    queryFn: () => api.imports.ledgerLists(),
    staleTime: Number.POSITIVE_INFINITY,
  }).data?.find(list => list.as === as)?.columns ?? [];

/** A column's name as a file may have it: in no dialect, since such a list is read by these names alone. */
const headingOf = (name: string): string => name.replaceAll('_', ' ');

/** Before there is a list of the books: which columns it has. */
export const ChooseBook = ({ as, ways }: { as: LedgerKind; ways: WaysIn }) => {
  const columns = useBookColumns(as);
  return (
    <BeforeList
      as={as}
      facts="You see what happens to the rows before anything is imported"
      example={columns.flatMap(({ name, required }) => (required ? [headingOf(name)] : [])).join('\t')}
      ways={ways}
    >
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
              {required ? ' (needed)' : ''}: {readerWords().spell(help)}
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
    </BeforeList>
  );
};
