import type { ReactNode } from 'react';
import type { AssumptionSet, Currency } from '../../../valuation/types.ts';
import { gradeLabel } from '../../../valuation/words.ts';
import { TimeUsedNote } from '../../components/evidence/time-used.tsx';
import { percentText, worthText } from '../../components/format.ts';
import { Section } from '../../components/layout/section.tsx';
import { readerWords } from '../../components/words.ts';
import { EvidenceNow } from './evidence-now.tsx';
import classes from './method.module.css';

const Step = ({ number, title, children }: { number: number; title: string; children: ReactNode }) => (
  <li className={classes.step}>
    <span className={classes.stepNumber} aria-hidden="true">
      {number}
    </span>
    <div>
      <h3>{title}</h3>
      {children}
    </div>
  </li>
);

const indexWords = (index: AssumptionSet['index']): string => {
  if (index === 'none') return 'Prices of earlier years are used as they were; that is the current setting.';
  if (index === 'cpi-u')
    return 'Prices of earlier years are raised by consumer prices in the United States (CPI-U); that is the current setting.';
  if (index === 'records')
    return 'Prices of earlier years are taken as your own records say they should be; that is the current setting.';
  if (index === 'steps')
    return 'Prices of earlier years follow the changes from year to year in your own records, from 40 of them over 3 years on; that is the current setting.';
  if (index === 'trend')
    return 'Prices of earlier years follow the trend of your own records, from 40 of them over 3 years on; that is the current setting.';
  return 'Prices of earlier years follow a series of your own.';
};

/** The way from sale records to a worth, and from a worth to advice, with the figures now in force. */
export const Steps = ({ assumptions, currency }: { assumptions: AssumptionSet; currency: Currency }) => {
  const { decision, sourceReliability } = assumptions;
  const { listing, 'own purchase': own } = sourceReliability;
  const beliefSales = assumptions.beliefSales ?? 1;
  return (
    <>
      <Section id="steps" title="The steps">
        <ol className={classes.steps}>
          <Step number={1} title="Every sale is adjusted to your car">
            <p>
              No sale was of exactly your car. So each is adjusted, one thing at a time and each by a factor:
              the currency at that day’s rate, the date, the rarity of its variation, its grade, its finish,
              its missing and replaced parts, and for a restoration each departure from how the factory made
              it. {indexWords(assumptions.index)} A price with no exchange rate for its date is set aside,
              never guessed.
            </p>
            <TimeUsedNote />
          </Step>
          <Step number={2} title="The factors start as assumptions and are corrected by the sales">
            <p>
              What a grade or a repaint does to the price begins with the assumptions in Settings. They are
              this project’s own starting points: no published guide is behind them. All sales together then
              correct each factor: a few hardly change it, many change it more. A better grade is never worth
              less.
            </p>
          </Step>
          <Step number={3} title="Where sales are few, related sales help">
            <p>
              Most variations were seen sold once or never. A variation’s own sales therefore count as far as
              their number and agreement deserve, and its casting’s, its series’ and all other sales fill the
              rest. The shares are always shown beside the value: “62 % this variation’s 4 sales, 38 % its
              casting’s 31”. Insurers know this method as Bühlmann–Straub credibility.
            </p>
          </Step>
          <Step number={4} title="Not every sale counts the same">
            <p>
              A sale counts half after {assumptions.halfLifeYears} years, and half at a distance of{' '}
              {assumptions.gradeDistanceHalf} grades. A documented sale counts in full
              {listing === undefined ? '' : `, an asking price ${percentText(listing)}`}. A sale without a
              grade is taken at {gradeLabel(assumptions.unknownGrade)} and counts less because of that doubt.
              A price far from what the others suggest counts little and is marked as doubtful; it stays on
              the list for you to leave out or keep. From 100 records on, a sale counts less where its price
              suits another variation of its casting better, because it may have been listed under the wrong
              one, and is marked as doubtful, too. How often that happens is learned from all records; your
              own sales are never doubted so.
            </p>
          </Step>
          <Step number={5} title="What you paid and what you believe count beside sales">
            <p>
              A car bought alone is a sale at all that you paid for it
              {own === undefined ? '' : `, counted ${percentText(own)}`}. A lot bought whole is one sale,
              shared by its cars in proportion to their values: all of them together never count as more than
              one. It counts at the grades at which they were bought, so changing a grade in such a lot
              changes what it says of every car like them. A purchase tells nothing while a car of it is not
              identified, where work was done on a car since, or where you have left it out on its lot’s page.
            </p>
            <p>
              What you believe (“a common one in C8 brings 60 to 90”) counts like{' '}
              {beliefSales === 1 ? 'one sale' : `${beliefSales} sales`} in the middle of that range, and sale
              records overrule it as they come. Wherever a value rests on either, it says so: in lists by the
              word “paid” or “believed” beside it, on a car’s page with the share of each, line by line.
            </p>
            <EvidenceNow />
          </Step>
          <Step number={6} title="The range shows how certain a value is">
            <p>
              It combines how much sales of the same car differ with how far the estimate itself may be off.
              Sales that agree narrow it; an open variation, a missing grade or less closely related sales
              widen it.
            </p>
          </Step>
          <Step number={7} title="No evidence is an answer">
            <p>
              A value is given where its sales, what you paid and what you believe narrow the estimate down
              far enough: to a high end of at most {assumptions.widestEstimate ?? 8} times its low end. Two
              sales of the very variation do so even when they are old; two of another casting of the series
              may not. Otherwise Playworn says what would help instead. You can enter your own figure, which
              is marked as yours.
            </p>
          </Step>
          <Step number={8} title="Your own sales teach it">
            <p>
              When you sell a car, that sale joins the records. Values you saved earlier are compared with
              what the cars sold for; if they were off by more than chance allows, Settings says so.
            </p>
          </Step>
        </ol>
      </Section>
      <Section id="advice" title="What to do with a car">
        <div className={classes.prose}>
          <p>
            Leave, conserve, restore, {readerWords().dialect.customise}, or use as a donor: each is compared
            with leaving the car as it is, by what it brings after selling costs of{' '}
            {percentText(decision.sellingFees)}, less what the work costs in parts, materials and hours, and
            less the chance that the work spoils it. Work is recommended only if it is expected to gain at
            least {worthText(decision.leastGain, currency)} {currency}, pays off in at least{' '}
            {percentText(decision.leastProbability)} of cases, and nothing speaks against it.
          </p>
          <p>
            Two things do. A factory finish can only be lost once: from {gradeLabel(decision.keepGrade)} on,
            and on a car not graded yet, paint is not recommended
            {decision.keepRarities.length > 0
              ? `; nor is it on a ${decision.keepRarities.join(' or ')} variation`
              : ''}
            . You can overrule either by giving a reason, which is saved.
          </p>
        </div>
      </Section>
    </>
  );
};
