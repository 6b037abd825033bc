import { Button, Loader } from '@mantine/core';
import { nextName } from './saved-season.ts';
import classes from './season.module.css';
import { tightest } from './season.ts';
import { SeasonMenu } from './season-menu.tsx';
import { SeasonMeters } from './season-meters.tsx';
import type { Ground, SeasonWork } from './use-season-work.ts';

const Actions = ({
  work,
  onChoose,
  onRecord,
}: {
  work: SeasonWork;
  onChoose: () => void;
  onRecord: () => void;
}) => {
  const waiting = work.waiting.length;
  return (
    <div className={classes.actions}>
      {work.choice.is === 'running' ? (
        <>
          <span className={classes.running} role="status">
            <Loader size={14} /> Choosing
          </span>
          <Button onClick={work.cancel}>Stop</Button>
        </>
      ) : (
        <Button onClick={onChoose} disabled={!work.canChoose}>
          Choose the best set
        </Button>
      )}
      <Button onClick={onRecord} disabled={waiting === 0 || work.saving}>
        {waiting === 0 ? 'Record decisions' : `Record ${waiting} ${waiting === 1 ? 'decision' : 'decisions'}`}
      </Button>
      <Button variant="filled" onClick={work.putOnBench} disabled={waiting === 0 || work.saving}>
        {waiting === 0 ? 'Put on the bench' : `Put ${waiting} on the bench`}
      </Button>
    </div>
  );
};

/**
 * The season at the foot: what the chosen cars take of hours, cash and parts, what they gain, and what to do
 * with them.
 */
export const SeasonBar = ({
  work,
  ground,
  onChoose,
  onRecord,
}: {
  work: SeasonWork;
  ground: Ground;
  onChoose: () => void;
  onRecord: () => void;
}) => {
  const { seasons, currency, today } = ground;
  const tight = tightest(work.totals.parts, work.limits);
  const overParts = tight.filter(({ used, limit }) => limit !== null && used > limit);
  return (
    <section className={classes.bar} aria-label="Season" aria-busy={work.saving || undefined}>
      <SeasonMeters
        season={work.season}
        totals={work.totals}
        limits={work.limits}
        tight={tight}
        currency={currency}
        outlook={work.outlook}
        menu={
          <SeasonMenu
            seasons={seasons}
            saved={work.saved}
            currency={currency}
            today={today}
            newName={nextName(
              seasons.map(({ name }) => name),
              today.slice(0, 4),
            )}
          />
        }
        onSeason={work.change}
      />
      <Actions work={work} onChoose={onChoose} onRecord={onRecord} />
      <span className="heard" role="status">
        {overParts.length > 0 ? `More than you have: ${overParts.map(({ name }) => name).join(', ')}` : ''}
      </span>
    </section>
  );
};
