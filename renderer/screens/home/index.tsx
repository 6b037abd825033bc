import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import { sentenceCase } from '../../../valuation/wording/reader.ts';
import { gradeLabel } from '../../../valuation/words.ts';
import { MostHelpful } from '../../components/evidence/helpful-answers.tsx';
import { LookUpSection } from '../../components/evidence/look-up-next.tsx';
import { counted, dateText } from '../../components/format.ts';
import { BeginActions } from '../../components/layout/begin-actions.tsx';
import { ErrorState } from '../../components/layout/error-state.tsx';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { OfBefore } from '../../components/layout/of-before.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';
import { Section } from '../../components/layout/section.tsx';
import { readerWords } from '../../components/words.ts';
import { BestCars } from './best-cars.tsx';
import { Breakdown } from './breakdown.tsx';
import { FirstSteps } from './first-steps.tsx';
import classes from './home.module.css';
import { homeQuery } from './home-query.ts';
import { NextSteps } from './next-steps.tsx';
import { Recommended } from './recommended.tsx';
import { Totals } from './totals.tsx';
import { WorthOverTime } from './worth-over-time.tsx';

/** The groups with their names, and with words for the group of those that have none. */
const named = <Row extends { name: string | null }>(rows: Row[], otherwise: string) =>
  rows.map(row => ({ ...row, name: row.name ?? otherwise }));

/** The ways in, where every step was put away. */
const BeginAgain = () => (
  <p className={classes.begin}>
    <BeginActions />
  </p>
);

const HomeScreen = () => {
  const home = useQuery(homeQuery);
  if (home.error) return <ErrorState error={home.error} retry={home.refetch} />;
  if (!home.data) return <LoadingState />;
  const { summary, firstSteps, totals, overTime, next, best, byRecommendation, bySeries, byGrade, byColour } =
    home.data;
  const { currency } = totals;
  const { workingOut } = home.data;
  const nothingValued = firstSteps !== null && totals.valued === 0;
  const facts = `${counted(summary.counts.cars, 'car', 'cars')} in ${counted(summary.counts.lots, 'lot', 'lots')} · values on ${dateText(summary.today)}, in ${currency}`;
  const seen =
    summary.counts.seenCars === 0 ? '' : `${summary.counts.seenCars.toLocaleString()} seen, not bought`;
  if (summary.counts.cars === 0)
    return (
      <>
        <PageHeader
          title={summary.name || 'Home'}
          facts={['No cars yet', seen].filter(Boolean).join(' · ')}
        />
        <div className="page" aria-busy={home.isFetching || undefined}>
          <Section title="From your list to your first decisions">
            <p className={classes.lead}>
              Bring your cars as you have them written down; half of a row is worth having. Then say what you
              know of prices, and Playworn works out values, what each car cost and what is worth restoring.
              It comes with no price list and guesses nothing.
            </p>
            {firstSteps ? <FirstSteps steps={firstSteps.steps} /> : <BeginAgain />}
          </Section>
        </div>
      </>
    );
  return (
    <>
      <PageHeader title={summary.name || 'Home'} facts={[facts, seen].filter(Boolean).join(' · ')} />
      <div className="page" aria-busy={home.isFetching || workingOut !== null || undefined}>
        {workingOut ? <OfBefore what="These are the values" workingOut={workingOut} /> : null}
        {firstSteps ? (
          <Section title="First steps" aside="Each with what it would bring">
            <FirstSteps steps={firstSteps.steps} />
          </Section>
        ) : null}
        <div className={nothingValued ? undefined : classes.top}>
          {nothingValued ? null : (
            <div className={classes.worth}>
              <Totals totals={totals} />
              <WorthOverTime points={overTime} currency={currency} />
            </div>
          )}
          {firstSteps && next.length === 0 ? null : (
            <Section title={firstSteps ? 'Also' : 'What to do next'}>
              <NextSteps steps={next} />
              {!firstSteps && totals.valued < totals.cars ? (
                <p className={classes.helpful}>
                  <MostHelpful />
                </p>
              ) : null}
            </Section>
          )}
        </div>
        {nothingValued ? null : (
          <>
            <Section title="Most valuable" aside={<Link href="~/cars">All cars</Link>}>
              <BestCars cars={best} currency={currency} />
            </Section>
            <Section title="What the figures recommend" aside={<Link href="~/decide">Decide</Link>}>
              <Recommended rows={byRecommendation} currency={currency} />
            </Section>
            <LookUpSection currency={currency} />
          </>
        )}
        {nothingValued ? null : (
          <div className={classes.breakdowns}>
            <Section title="By series" aside={`value as found, ${currency}`}>
              <Breakdown rows={named(bySeries, 'Not identified')} currency={currency} />
            </Section>
            <Section title="By grade" aside={`value as found, ${currency}`}>
              <Breakdown
                rows={byGrade.map(({ grade, finishState, ...row }) => ({
                  name: finishState
                    ? readerWords().spell(`${sentenceCase(finishState)}, all grades`)
                    : grade === null
                      ? 'Not graded'
                      : gradeLabel(grade),
                  ...row,
                }))}
                currency={currency}
              />
            </Section>
            <Section title={`By ${readerWords().dialect.colour}`} aside={`value as found, ${currency}`}>
              <Breakdown rows={named(byColour, 'Not known')} currency={currency} chips />
            </Section>
          </div>
        )}
      </div>
    </>
  );
};

export default HomeScreen;
