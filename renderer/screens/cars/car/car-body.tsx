import { useState } from 'react';
import { useLocation } from 'wouter';
import type { CarPage } from '../../../../electron/api/views.ts';
import type { Currency, IsoDate } from '../../../../valuation/types.ts';
import { carTitle } from '../../../../valuation/wording/cars/car-names.ts';
import type { Option, WhichWorth } from '../../../../valuation/words.ts';
import { OptionsTable } from '../../../components/decision/options-table.tsx';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { Section } from '../../../components/layout/section.tsx';
import { StickyIndex } from '../../../components/layout/sticky-index.tsx';
import { listAddress } from '../list/last-list.ts';
import { Books } from './books/books.tsx';
import classes from './car.module.css';
import { CarHead } from './car-head.tsx';
import { ConditionSection } from './condition/condition-section.tsx';
import { DecisionSection } from './decision/decision-section.tsx';
import { Evidence } from './evidence/evidence.tsx';
import { History } from './history.tsx';
import { Identity } from './identity/identity.tsx';
import { Photographs } from './photographs/photographs.tsx';
import { PlanSection } from './plan/plan-section.tsx';
import { WhatToDo } from './recommendation/what-to-do.tsx';
import { useCarKeys } from './use-car-keys.ts';
import { WorkSection } from './work/work-section.tsx';
import { WorthBlock } from './worth/worth-block.tsx';
import { WorthHistory } from './worth/worth-history.tsx';

const index = [
  { id: 'car', label: 'Car' },
  { id: 'worth', label: 'Value' },
  { id: 'what-to-do', label: 'What to do' },
  { id: 'condition', label: 'Condition' },
  { id: 'plan', label: 'Plan' },
  { id: 'work', label: 'Work' },
  { id: 'evidence', label: 'Evidence' },
  { id: 'decision', label: 'Decision' },
  { id: 'books', label: 'Cost and sale' },
  { id: 'over-time', label: 'Over time' },
  { id: 'history', label: 'History' },
];

const goTo = (id: string) => {
  const section = document.getElementById(id);
  section?.scrollIntoView({ block: 'start' });
  section?.querySelector<HTMLElement>('h2')?.focus({ preventScroll: true });
};

/** All of one car on one page, its parts always within reach through the index. */
export const CarBody = ({ car, currency, today }: { car: CarPage; currency: Currency; today: IsoDate }) => {
  const [, navigate] = useLocation();
  const [which, setWhich] = useState<WhichWorth>('asFound');
  const [choice, setChoice] = useState<Option | null>(null);
  useCarKeys(car, goTo);
  const explain = (worth: WhichWorth) => {
    setWhich(worth);
    goTo('evidence');
  };
  const choose = (option: Option) => {
    setChoice(option);
    goTo('decision');
  };
  return (
    <>
      <PageHeader
        title={carTitle(car)}
        back={{ label: 'Cars', to: listAddress() }}
        facts={<CarHead.Facts car={car} />}
        actions={<CarHead.Actions car={car} />}
      />
      <StickyIndex entries={index} label="Parts of this page" />
      <div className="page">
        <section id="car" className={classes.top} aria-label="Photographs and identity">
          <Photographs car={car} />
          <Identity car={car} />
        </section>
        <Section id="worth" title="Value" aside="likely sale price, 80 % range; the tick is the median">
          <WorthBlock
            car={car}
            currency={currency}
            today={today}
            onExplain={explain}
            onOpenRecord={record => navigate(`~/sales?record=${record}`)}
          />
        </Section>
        <Section id="what-to-do" title="What to do" aside={`gain over leaving it, in ${currency}`}>
          <WhatToDo car={car} currency={currency} />
          <OptionsTable
            decision={car.decision}
            currency={currency}
            chosen={car.decision.recorded?.choice ?? null}
            onChoose={car.status === 'sold' ? undefined : choose}
          />
        </Section>
        <ConditionSection car={car} today={today} />
        <PlanSection car={car} currency={currency} />
        <WorkSection car={car} today={today} />
        <Evidence car={car} currency={currency} which={which} onWhich={setWhich} />
        <DecisionSection car={car} choice={choice} onChoice={setChoice} />
        <Books car={car} currency={currency} today={today} />
        <Section id="over-time" title="Value over time" aside={`in ${currency}`}>
          <WorthHistory car={car} currency={currency} />
        </Section>
        <Section id="history" title="History">
          <History car={car} />
        </Section>
      </div>
    </>
  );
};
