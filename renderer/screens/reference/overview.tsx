import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'wouter';
import type { CastingRow } from '../../../electron/api/views.ts';
import { sentenceCase } from '../../../valuation/wording/reader.ts';
import { api } from '../../api/client.ts';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';
import { Section } from '../../components/layout/section.tsx';
import { ExportMenu } from '../../components/saved-views/export-menu.tsx';
import { readerWords } from '../../components/words.ts';
import { SeriesForm } from './forms/series-form.tsx';
import { groupCastings } from './group-castings.ts';
import { SeenLink, WaitingLink } from './names/waiting-link.tsx';
import classes from './reference.module.css';
import { SwatchButton } from './swatch-button.tsx';

const sum = (castings: readonly CastingRow[], of: 'variations' | 'cars' | 'saleRecords') =>
  castings.reduce((total, casting) => total + casting[of], 0);

/** Beside the list while no casting is chosen: the series in figures, and the colours with their swatches. */
export const Overview = ({
  castings,
  text,
}: {
  castings: readonly CastingRow[];
  /** What is looked for in the list beside it. */
  text: string;
}) => {
  const { data: colours, isPending } = useQuery({
    queryKey: ['colours'],
    queryFn: () => api.reference.colours(),
  });
  const { data: series } = useQuery({ queryKey: ['series'], queryFn: () => api.reference.series() });
  const [edited, setEdited] = useState<number | null>(null);
  const groups = groupCastings(castings, '');
  const bare = (colours ?? []).filter(colour => colour.swatch === null).length;
  return (
    <>
      <PageHeader
        title="Reference"
        facts={`${castings.length} castings in ${sum(castings, 'variations').toLocaleString()} variations`}
        actions={
          <>
            <WaitingLink />
            <SeenLink />
            <ExportMenu
              list="reference"
              rows={() => ({
                ids: groupCastings(castings, text).flatMap(group => group.castings.map(({ id }) => id)),
              })}
              parts={{ shown: 'Castings listed', whole: 'Whole reference' }}
            />
            <Button component={Link} href="~/reference/sets">
              Sets
            </Button>
            <Button component={Link} href="~/lots/import?as=reference">
              Import a spreadsheet
            </Button>
          </>
        }
      />
      <div className="page">
        <Section
          title="Series"
          aside={<Link href="~/reference/series">Put many castings into one series …</Link>}
        >
          <div className="sideways">
            <table className={classes.table}>
              <thead>
                <tr>
                  <th scope="col">Series</th>
                  <th scope="col">Maker</th>
                  <th scope="col" className="amount">
                    Castings
                  </th>
                  <th scope="col" className="amount">
                    Variations
                  </th>
                  <th scope="col" className="amount">
                    Yours
                  </th>
                  <th scope="col" className="amount">
                    Sale records
                  </th>
                </tr>
              </thead>
              <tbody>
                {groups.map(group => (
                  <tr key={`${group.maker} ${group.series}`}>
                    <th scope="row">
                      <button
                        type="button"
                        className={classes.seriesButton}
                        onClick={() => setEdited(group.castings[0]?.seriesId ?? null)}
                      >
                        {group.series}
                      </button>
                    </th>
                    <td className="soft">{group.maker}</td>
                    <td className="amount">{group.castings.length}</td>
                    <td className="amount">{sum(group.castings, 'variations')}</td>
                    <td className="amount">{sum(group.castings, 'cars') || '–'}</td>
                    <td className="amount">{sum(group.castings, 'saleRecords') || '–'}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        </Section>
        <Section
          title={sentenceCase(readerWords().dialect.colours)}
          aside={bare > 0 ? `${bare} without a swatch` : 'press one to choose its swatch'}
        >
          {isPending ? <LoadingState part /> : null}
          {colours && colours.length > 0 ? (
            <ul className={classes.colours}>
              {colours.map(colour => (
                <li key={colour.name}>
                  <SwatchButton colour={colour} />
                </li>
              ))}
            </ul>
          ) : (
            <p className="soft grid-text">
              {sentenceCase(readerWords().dialect.colours)} appear here with the variations that have them.
            </p>
          )}
        </Section>
      </div>
      <SeriesForm series={series?.find(({ id }) => id === edited) ?? null} onClose={() => setEdited(null)} />
    </>
  );
};
