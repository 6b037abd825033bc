import { useIsFetching } from '@tanstack/react-query';
import { useEffect, useRef } from 'react';
import { useSearch } from 'wouter';
import type { CollectionSummary } from '../../../electron/api/views.ts';
import { useSummary } from '../../api/use-summary.ts';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';
import { Section } from '../../components/layout/section.tsx';
import { StickyIndex } from '../../components/layout/sticky-index.tsx';
import { AppearanceSection } from './appearance-section.tsx';
import { ArchiveSection } from './archive/archive-section.tsx';
import { AssumptionsSection } from './assumptions/assumptions-section.tsx';
import { BackupsSection } from './backups/backups-section.tsx';
import { BeliefsSection } from './beliefs-section.tsx';
import { CollectionSection } from './collection-section.tsx';
import { MoneySection } from './money-section.tsx';
import { NamesSection } from './names/names-section.tsx';
import { PartsSection } from './parts-section.tsx';
import classes from './settings.module.css';
import { StepsSection } from './steps/steps-section.tsx';
import { HeldUp } from './valuations/held-up.tsx';
import { KeepValuation } from './valuations/keep-valuation.tsx';
import { WordsSection } from './words/words-section.tsx';

const entries = [
  { id: 'collection', label: 'Collection' },
  { id: 'money', label: 'Exchange rates' },
  { id: 'assumptions', label: 'Assumptions' },
  { id: 'steps', label: 'Steps of work' },
  { id: 'beliefs', label: 'What you believe' },
  { id: 'words', label: 'Your words' },
  { id: 'names', label: 'Names you settled' },
  { id: 'parts', label: 'Parts shelf' },
  { id: 'valuations', label: 'Valuations' },
  { id: 'held-up', label: 'How the estimates held up' },
  { id: 'backups', label: 'Backups' },
  { id: 'archive', label: 'Archive' },
  { id: 'appearance', label: 'Appearance' },
];

/** Changes when the names or the currency do, by an undo or a restore, so that the fields follow. */
const namesOf = ({ dir, name, owner, reportingCurrency }: CollectionSummary): string =>
  [dir, name, owner, reportingCurrency].join('\n');

const SettingsScreen = () => {
  const { data: summary } = useSummary();
  const part = new URLSearchParams(useSearch()).get('part');
  // The parts above take their room once they have been asked for; until its reader does something, the
  // part stays in sight.
  const isWhole = useIsFetching() === 0 && summary !== undefined;
  const acted = useRef(false);
  useEffect(() => {
    acted.current = false;
    const act = () => {
      acted.current = true;
    };
    const signs = ['pointerdown', 'wheel', 'keydown'] as const;
    for (const sign of signs) window.addEventListener(sign, act, { passive: true });
    return () => {
      for (const sign of signs) window.removeEventListener(sign, act);
    };
  }, []);
  useEffect(() => {
    if (part && isWhole && !acted.current) document.getElementById(part)?.scrollIntoView({ block: 'start' });
  }, [part, isWhole]);
  if (!summary) return <LoadingState />;
  const currency = summary.reportingCurrency;
  return (
    <>
      <PageHeader title="Settings" facts="Saved in the collection and backed up with it" />
      <StickyIndex entries={entries} />
      <div className={`page ${classes.body}`}>
        <CollectionSection key={namesOf(summary)} summary={summary} />
        <MoneySection summary={summary} />
        <AssumptionsSection currency={currency} />
        <StepsSection currency={currency} />
        <BeliefsSection currency={currency} />
        <WordsSection />
        <NamesSection />
        <Section id="parts" title="Parts shelf" aside="spare parts for restorations">
          <PartsSection currency={currency} />
        </Section>
        <Section id="valuations" title="Saved valuations" aside="the curve on Home">
          <KeepValuation today={summary.today} currency={currency} />
        </Section>
        <Section id="held-up" title="How the estimates have held up" aside={`amounts in ${currency}`}>
          <HeldUp currency={currency} />
        </Section>
        <BackupsSection />
        <ArchiveSection summary={summary} />
        <AppearanceSection />
      </div>
    </>
  );
};

export default SettingsScreen;
