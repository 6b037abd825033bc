import { Button, NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { SetMember, SetPage } from '../../../../electron/api/lists/casting-sets.ts';
import { carGradeLabel, type Grade, gradeLabel } from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { counted, worthText } from '../../../components/format.ts';
import { pickedCasting, suggestCastings } from '../../../components/inputs/casting-choices.tsx';
import { TypeAhead } from '../../../components/inputs/type-ahead.tsx';
import { ErrorState } from '../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { NameDialog } from '../../../components/saved-views/name-dialog.tsx';
import { readerWords } from '../../../components/words.ts';
import classes from './sets.module.css';

const grades = Array.from({ length: 19 }, (_, step) => (1 + step / 2) as Grade).reverse();

/** What completing a set may cost, and of what nothing can be said. */
const Completing = ({ page }: { page: SetPage }) => {
  const { missing, completing, withoutEvidence, currency, members } = page;
  const text = (minor: number) => `${worthText(minor, currency)} ${currency}`;
  if (members.length === 0) return <p>The set has no castings. Add some below.</p>;
  if (missing === 0) return <p>The set is complete.</p>;
  const counts = missing - withoutEvidence.length;
  return (
    <>
      {completing ? (
        <p>
          {missing === counts ? 'Completing it' : `${counts} of the ${missing} missing castings`} in{' '}
          {gradeLabel(page.grade)} with factory finish would cost about{' '}
          <strong>{text(completing.mid)}</strong>, likely between {text(completing.low)} and{' '}
          {text(completing.high)} (80 %).
        </p>
      ) : null}
      {withoutEvidence.length > 0 ? (
        <p className="caution">
          Not in that sum, because there is not enough evidence: {withoutEvidence.join(', ')}.
        </p>
      ) : null}
    </>
  );
};

const Row = ({ member, page, onRemove }: { member: SetMember; page: SetPage; onRemove: () => void }) => {
  const { best, price, cars } = member;
  const worth = best ? best.worth : price;
  return (
    <tr>
      <th scope="row">
        <Link href={`/castings/${member.castingId}`}>{member.casting}</Link>
        <span className={classes.below}>
          {[member.series, member.year].filter(fact => fact !== '' && fact !== null).join(' · ')}
        </span>
      </th>
      <td className={`soft ${classes.beside}`}>{member.series}</td>
      <td className={classes.beside}>{member.year}</td>
      <td>
        {best ? (
          <>
            <Link href={`~/cars/${best.id}`}>{best.inventoryNumber}</Link>{' '}
            {best.grade === null
              ? 'ungraded'
              : readerWords().spell(carGradeLabel(best.grade, best.finishState))}
            {cars > 1 ? <span className="soft"> · best of {cars}</span> : null}
          </>
        ) : (
          <span className="caution">missing</span>
        )}
      </td>
      <td className="amount">
        {worth ? (
          `${worthText(worth.low, page.currency)} to ${worthText(worth.high, page.currency)}`
        ) : (
          <span className="soft">not enough evidence</span>
        )}
      </td>
      <td>
        <Button
          className={classes.takeOut}
          size="xs"
          variant="subtle"
          aria-label={`Take out ${member.casting}`}
          onClick={onRemove}
        >
          Take out
        </Button>
      </td>
    </tr>
  );
};

const Members = ({ page }: { page: SetPage }) => {
  const ids = page.members.map(({ castingId }) => castingId);
  const change = useAction((castingIds: number[]) => api.castingSets.update({ id: page.id, castingIds }), {
    label: `Set “${page.name}” changed`,
    failure: 'The set stays as it is',
  });
  return (
    <>
      <table className={`ruled ${classes.members}`} aria-label="Castings of the set">
        <thead>
          <tr>
            <th scope="col">Casting</th>
            <th scope="col" className={classes.beside}>
              Series
            </th>
            <th scope="col" className={classes.beside}>
              From
            </th>
            <th scope="col">Your best</th>
            <th scope="col" className="amount">
              Value, or price in {gradeLabel(page.grade)}, {page.currency}
            </th>
            <th scope="col">
              <span className="heard">Change</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {page.members.map(member => (
            <Row
              key={member.castingId}
              member={member}
              page={page}
              onRemove={() => change.mutate(ids.filter(id => id !== member.castingId))}
            />
          ))}
        </tbody>
      </table>
      <div className={classes.add}>
        <TypeAhead
          label="Add a casting"
          value=""
          choices={suggestCastings}
          onPick={choice => {
            const castingId = pickedCasting(choice)?.castingId;
            if (castingId && !ids.includes(castingId)) change.mutate([...ids, castingId]);
          }}
        />
      </div>
    </>
  );
};

/** A set: the best car of each casting, what is missing, and what completing it may cost. */
export const SetScreen = ({ id }: { id: number }) => {
  const [grade, setGrade] = useState<Grade>(6);
  const [renaming, setRenaming] = useState(false);
  const [, navigate] = useLocation();
  const {
    data: page,
    error,
    refetch,
  } = useQuery({
    queryKey: ['casting-set', id, grade],
    queryFn: () => api.castingSets.page({ id, grade }),
    placeholderData: before => before,
  });
  const { data: sets = [] } = useQuery({
    queryKey: ['casting-sets'],
    queryFn: () => api.castingSets.list(),
  });
  const rename = useAction((name: string) => api.castingSets.update({ id, name }), {
    label: name => `Set renamed to “${name}”`,
    failure: 'The set keeps its name',
    onDone: () => setRenaming(false),
  });
  const remove = useAction(() => api.castingSets.remove({ id }), {
    label: 'Set removed',
    thenGo: () => navigate('/sets'),
  });
  if (error) return <ErrorState error={error} retry={() => void refetch()} />;
  if (!page) return <LoadingState />;
  const there = page.members.length - page.missing;
  return (
    <>
      <PageHeader
        title={page.name}
        back={{ label: 'Sets', to: '/reference/sets' }}
        facts={`${there} of ${counted(page.members.length, 'casting')} in your collection`}
        actions={
          <>
            <span className={classes.grade}>
              Missing ones in{' '}
              <NativeSelect
                aria-label="Grade of the missing ones"
                value={String(grade)}
                data={grades.map(value => ({ value: String(value), label: gradeLabel(value) }))}
                onChange={event => setGrade(Number(event.currentTarget.value) as Grade)}
              />
            </span>
            <Button onClick={() => setRenaming(true)}>Rename …</Button>
            <Button onClick={() => remove.mutate()}>Remove the set</Button>
          </>
        }
      />
      <div className="page">
        <Completing page={page} />
        <Members page={page} />
      </div>
      {renaming ? (
        <NameDialog
          title="Rename the set"
          says={`Now called “${page.name}”`}
          begin={page.name}
          verb="Rename"
          of="set"
          taken={sets.flatMap(set => (set.id === id ? [] : set.name))}
          busy={rename.isPending}
          onName={name => rename.mutate(name)}
          onClose={() => setRenaming(false)}
        />
      ) : null}
    </>
  );
};
