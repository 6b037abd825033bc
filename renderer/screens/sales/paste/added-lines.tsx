import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import type { AddedSaleLines } from '../../../../electron/api/views.ts';
import { useUndo } from '../../../components/actions/use-undo.ts';
import { counted } from '../../../components/format.ts';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { Section } from '../../../components/layout/section.tsx';
import { WhatWaits } from '../../../components/waiting/what-waits.tsx';
import classes from './paste.module.css';
import { lacking } from './paste-draft.ts';

const why = (row: AddedSaleLines['rows'][number]): string => {
  if (row.not === 'lot') return 'several cars';
  if (row.not === 'not a car') return 'not a car';
  return row.not ? lacking(row) : 'left out by you';
};

/** What was added of the lines, what waits because of them, and what was left out. */
export const AddedLines = ({ result, onAgain }: { result: AddedSaleLines; onAgain: () => void }) => {
  const { undo } = useUndo();
  const [undone, setUndone] = useState(false);
  const added = result.rows.filter(row => row.outcome === 'added');
  const left = result.rows.filter(row => row.outcome === 'left out');
  const nameless = added.filter(row => row.castingId === null).length;
  const facts = [
    result.known > 0 ? counted(result.known, 'was recorded already', 'were recorded already') : null,
    nameless > 0
      ? counted(nameless, 'counts once its name is settled', 'count once their names are settled')
      : null,
    left.length > 0 ? counted(left.length, 'line left out', 'lines left out') : null,
  ];
  return (
    <>
      <PageHeader
        title={
          undone
            ? 'The sale records were taken back'
            : result.added === 0
              ? 'Nothing was added'
              : `Added ${counted(result.added, 'sale record', 'sale records')}`
        }
        facts={facts.filter(Boolean).join(' · ')}
        back={{ label: 'Sale records', to: '/sales' }}
      />
      <div className="page">
        <p className={classes.next}>
          <Button component={Link} href="~/sales" variant="filled" size="sm">
            Go to the sale records
          </Button>
          <Button size="sm" onClick={onAgain}>
            Paste more
          </Button>
          {undone || result.added === 0 ? null : (
            <Button
              size="sm"
              variant="subtle"
              onClick={async () => {
                await undo();
                setUndone(true);
              }}
            >
              Undo
            </Button>
          )}
        </p>
        {undone ? null : <WhatWaits />}
        {left.length > 0 ? (
          <Section title="Left out">
            <table className={classes.left}>
              <thead>
                <tr>
                  <th scope="col">Line</th>
                  <th scope="col">Text</th>
                  <th scope="col">Why</th>
                </tr>
              </thead>
              <tbody>
                {left.slice(0, 200).map(row => (
                  <tr key={row.line}>
                    <td>{row.line}</td>
                    <td>{row.text}</td>
                    <td>{why(row)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
            {left.length > 200 ? (
              <p className="soft">And {(left.length - 200).toLocaleString()} more.</p>
            ) : null}
          </Section>
        ) : null}
      </div>
    </>
  );
};
