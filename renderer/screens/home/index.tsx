import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import { gradeLabel } from '../../../valuation/words.ts';
import { dateText } from '../../components/format.ts';
import { EmptyState } from '../../components/layout/empty-state.tsx';
import { ErrorState } from '../../components/layout/error-state.tsx';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';
import { Section } from '../../components/layout/section.tsx';
import { readerWords } from '../../components/words.ts';
import { BestCars } from './best-cars.tsx';
import { Breakdown } from './breakdown.tsx';
import classes from './home.module.css';
import { homeQuery } from './home-query.ts';
import { NextSteps } from './next-steps.tsx';
import { Recommended } from './recommended.tsx';
import { Totals } from './totals.tsx';
import { WorthOverTime } from './worth-over-time.tsx';

/** The groups with their names, and with words for the group of those that have none. */
const named = <Row extends { name: string | null }>(rows: Row[], otherwise: string) =>
  rows.map(row => ({ ...row, name: row.name ?? otherwise }));

const HomeScreen = () => {
  const home = useQuery(homeQuery);
  if (home.error) return <ErrorState error={home.error} retry={home.refetch} />;
  if (!home.data) return <LoadingState />;
  const { summary, totals, overTime, next, best, byRecommendation, bySeries, byGrade, byColour } = home.data;
  const { currency } = totals;
  const facts = `${summary.counts.cars} cars in ${summary.counts.lots} lots · values on ${dateText(summary.today)}, in ${currency}`;
  if (summary.counts.cars === 0)
    return (
      <>
        <PageHeader title={summary.name || 'Home'} facts="No cars yet" />
        <div className="page">
          <EmptyState
            title="Begin with a lot"
            actions={
              <>
                <Link className={classes.primary} href="~/lots/new">
                  Enter a lot
                </Link>
                <Link className={classes.secondary} href="~/lots/import">
                  Import a spreadsheet
                </Link>
              </>
            }
          >
            A lot is what you bought together for one price. Enter its cars or import your list; then Playworn
            works out values, shares of the price and what to restore from your sale records.
          </EmptyState>
          {next.length ? (
            <Section title="What to do next">
              <NextSteps steps={next} />
            </Section>
          ) : null}
        </div>
      </>
    );
  return (
    <>
      <PageHeader title={summary.name || 'Home'} facts={facts} />
      <div className="page">
        <div className={classes.top}>
          <div className={classes.worth}>
            <Totals totals={totals} />
            <WorthOverTime points={overTime} currency={currency} />
          </div>
          <Section title="What to do next">
            <NextSteps steps={next} />
          </Section>
        </div>
        <Section title="Most valuable" aside={<Link href="~/cars">All cars</Link>}>
          <BestCars cars={best} currency={currency} />
        </Section>
        <Section title="What the figures recommend" aside={<Link href="~/decide">Decide</Link>}>
          <Recommended rows={byRecommendation} currency={currency} />
        </Section>
        <div className={classes.breakdowns}>
          <Section title="By series" aside={`value as found, ${currency}`}>
            <Breakdown rows={named(bySeries, 'Not identified')} currency={currency} />
          </Section>
          <Section title="By grade" aside={`value as found, ${currency}`}>
            <Breakdown
              rows={byGrade.map(({ grade, ...row }) => ({
                name: grade === null ? 'Not graded' : gradeLabel(grade),
                ...row,
              }))}
              currency={currency}
            />
          </Section>
          <Section title={`By ${readerWords().dialect.colour}`} aside={`value as found, ${currency}`}>
            <Breakdown rows={named(byColour, 'Not known')} currency={currency} chips />
          </Section>
        </div>
      </div>
    </>
  );
};

export default HomeScreen;
