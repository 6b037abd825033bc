import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import type { NamedLookUp } from '../../../electron/api/views.ts';
import type { Currency } from '../../../valuation/types.ts';
import { lookUpText, lookUpWorthText } from '../../../valuation/wording/values/look-up-text.ts';
import { api } from '../../api/client.ts';
import { Section } from '../layout/section.tsx';
import { useWords } from '../words.ts';
import classes from './look-up-next.module.css';

const useLookUps = () =>
  useQuery({ queryKey: ['look up next'], queryFn: () => api.decisions.lookUp() }).data ?? [];

const One = ({ lookUp, currency }: { lookUp: NamedLookUp; currency: Currency }) => {
  const words = useWords();
  return (
    <>
      <Link href="~/sales/paste">{words.spell(lookUpText(lookUp))}</Link>
      <span className={classes.worth}> · {lookUpWorthText(lookUp, words.reader(currency))}</span>
    </>
  );
};

const List = ({ list, currency }: { list: NamedLookUp[]; currency: Currency }) => (
  <ul className={classes.list}>
    {list.map(lookUp => (
      <li key={lookUpText(lookUp)}>
        <One lookUp={lookUp} currency={currency} />
      </li>
    ))}
  </ul>
);

/** Sales that are worth looking up, the most useful first; no part of the page where none is. */
export const LookUpSection = ({ currency }: { currency: Currency }) => {
  const list = useLookUps();
  return list.length === 0 ? null : (
    <Section title="What to look up next" aside={`expected to be worth, ${currency}`}>
      <List list={list} currency={currency} />
    </Section>
  );
};

/** The most useful in a line, which opens to the rest. */
export const LookUpLine = ({ currency }: { currency: Currency }) => {
  const [best, ...others] = useLookUps();
  return best ? (
    <section className={classes.line} aria-label="What to look up next">
      What to look up next: <One lookUp={best} currency={currency} />
      {others.length > 0 ? (
        <details>
          <summary>{others.length} more</summary>
          <List list={others} currency={currency} />
        </details>
      ) : null}
    </section>
  ) : null;
};
