import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'wouter';
import type { SettledNameRow } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { counted, dateText } from '../../../components/format.ts';
import { FindField } from '../../../components/inputs/find-field.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { Section } from '../../../components/layout/section.tsx';
import classes from '../settings.module.css';

const page = 100;
const many = 12;

const Meaning = ({ row }: { row: SettledNameRow }) => {
  if (row.means === 'not a car') return 'not a car';
  const casting =
    row.castingId === null ? (
      row.casting
    ) : (
      <Link href={`~/reference/${row.castingId}`}>{row.casting ?? 'a casting'}</Link>
    );
  if (row.means === 'casting') return casting;
  return (
    <>
      the release {row.release}, of {casting}
    </>
  );
};

/** Names that were settled or parted, each of which can be taken back. */
export const NamesSection = () => {
  const { data } = useQuery({ queryKey: ['settled names'], queryFn: () => api.names.settled() });
  const [filter, setFilter] = useState('');
  const [most, setMost] = useState(page);
  const takeBack = useAction(
    ({ settled = [], parted = [] }: { settled?: number[]; parted?: number[]; what: string }) =>
      api.names.takeBack({ settled, parted }),
    { label: ({ what }) => `${what} taken back` },
  );
  const { settled, parted } = data ?? { settled: [], parted: [] };
  const wanted = filter.trim().toLowerCase();
  const has = (...texts: (string | null)[]) => texts.some(text => text?.toLowerCase().includes(wanted));
  const settledShown = settled.filter(row => has(row.text, row.means, row.casting, row.release));
  const partedShown = parted.filter(({ one, other }) => has(one, other));
  const shown = settledShown.length + partedShown.length;
  return (
    <Section
      id="names"
      title="Names you settled"
      aside={
        settled.length + parted.length === 0 ? undefined : counted(settled.length + parted.length, 'answer')
      }
    >
      <p className={classes.lead}>
        Lists and sales read later go by these. Taking one back leaves the cars and sale records that have
        followed it as they are; what was said to be no car <Link href="~/reference/names">waits again</Link>.
      </p>
      {settled.length + parted.length > many ? (
        <FindField label="Find among the names you settled" value={filter} onChange={setFilter} />
      ) : null}
      {data ? null : <LoadingState part />}
      {shown > 0 ? (
        <table className={classes.words} aria-label="Names you settled">
          <thead>
            <tr>
              <th scope="col">Written</th>
              <th scope="col">Is</th>
              <th scope="col" className={classes.settledOn}>
                Settled
              </th>
              <td />
            </tr>
          </thead>
          <tbody>
            {settledShown.slice(0, most).map(row => (
              <tr key={row.id}>
                <th scope="row">{row.text}</th>
                <td>
                  <Meaning row={row} />
                </td>
                <td className={`soft ${classes.settledOn}`}>{dateText(row.settledAt.slice(0, 10))}</td>
                <td>
                  <Button
                    size="compact-xs"
                    variant="subtle"
                    aria-label={`Take back “${row.text}”`}
                    onClick={() => takeBack.mutate({ settled: [row.id], what: `“${row.text}”` })}
                  >
                    Take back
                  </Button>
                </td>
              </tr>
            ))}
            {partedShown.slice(0, Math.max(0, most - settledShown.length)).map(({ id, one, other }) => (
              <tr key={`parted ${id}`}>
                <th scope="row">
                  {one} · {other}
                </th>
                <td>two names, never one</td>
                <td className={classes.settledOn} />
                <td>
                  <Button
                    size="compact-xs"
                    variant="subtle"
                    aria-label={`Take back that “${one}” and “${other}” are two names`}
                    onClick={() =>
                      takeBack.mutate({ parted: [id], what: `That “${one}” and “${other}” are two names` })
                    }
                  >
                    Take back
                  </Button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : data ? (
        <p className="soft">
          {wanted === ''
            ? 'None yet: names that the reference does not know wait to be settled once cars or sales have them.'
            : 'None has that text.'}
        </p>
      ) : null}
      {shown > most ? (
        <Button variant="subtle" onClick={() => setMost(most + page)}>
          Show more of the {shown.toLocaleString()}
        </Button>
      ) : null}
    </Section>
  );
};
