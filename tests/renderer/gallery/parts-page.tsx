import { Button } from '@mantine/core';
import { useState } from 'react';
import {
  Amount,
  AmountDelta,
  ChangingAmount,
  RangeText,
} from '../../../renderer/components/amounts/amount.tsx';
import { MoneyInput } from '../../../renderer/components/inputs/money-input.tsx';
import { TypeAhead } from '../../../renderer/components/inputs/type-ahead.tsx';
import { KeyHint } from '../../../renderer/components/keys/key-hint.tsx';
import { LacquerChip } from '../../../renderer/components/lacquer-chip/lacquer-chip.tsx';
import { EmptyState } from '../../../renderer/components/layout/empty-state.tsx';
import { ErrorState } from '../../../renderer/components/layout/error-state.tsx';
import { PageHeader } from '../../../renderer/components/layout/page-header.tsx';
import { Section } from '../../../renderer/components/layout/section.tsx';
import { StickyIndex } from '../../../renderer/components/layout/sticky-index.tsx';
import { FinishState } from '../../../renderer/components/marks/finish-state.tsx';
import { GradeBadge } from '../../../renderer/components/marks/grade-badge.tsx';
import { RecommendationMark } from '../../../renderer/components/marks/recommendation-mark.tsx';
import { showProblem, showUndoNotice } from '../../../renderer/components/notices/undo-notice.tsx';
import { Photo } from '../../../renderer/components/photo/photo.tsx';
import { LargeWorthStrip } from '../../../renderer/components/worth-strip/large-worth-strip.tsx';
import type { SaleDot } from '../../../renderer/components/worth-strip/sale-dots.tsx';
import { worthScale } from '../../../renderer/components/worth-strip/scale.ts';
import { WorthAxis, WorthLegend } from '../../../renderer/components/worth-strip/worth-axis.tsx';
import { WorthStrip } from '../../../renderer/components/worth-strip/worth-strip.tsx';
import { basePaints, finishStates, recommendations } from '../../../valuation/words.ts';
import { castings, colours, sampleWorths } from './sample-cars.ts';

const entries = ['worth', 'chips', 'marks', 'amounts', 'fields', 'states'].map(id => ({ id, label: id }));
const worths = {
  asFound: { low: 2400, mid: 3600, high: 5400 },
  restored: { low: 3100, mid: 5200, high: 8200, gross: 9900 },
  originalFinish: { low: 9000, mid: 14000, high: 22000, attainable: true },
};
const hard = {
  asFound: { low: 900, mid: 1400, high: 2200 },
  restored: { low: -400, mid: 300, high: 1500, gross: 3800 },
  originalFinish: { low: 4000, mid: 6400, high: 9900, attainable: false },
};
const dots: SaleDot[] = [
  2600, 2900, 3300, 3350, 3400, 3600, 3650, 4100, 4800, 5200, 3000, 3050, 6100, 2100, 13000, 14500, 20500,
].map((amount, index) => ({
  id: index,
  amount,
  level: index % 5 === 3 ? 'casting' : index % 7 === 6 ? 'series' : 'variation',
  doubtful: index === 16,
  label: `${(amount / 100).toFixed(0)} on 14 Mar 2024, C${4 + (index % 6)} original`,
  detail: 'listing at an auction, brought from C8 to C6.5',
}));
const choices = castings.map(name => ({ value: name, label: name, detail: '1968' }));

const Worth = () => {
  const many = Array.from({ length: 7 }, (_, index) => sampleWorths(index + 20));
  const scale = worthScale(many, 'USD');
  return (
    <Section id="worth" title="Worth" aside={<WorthLegend />}>
      <LargeWorthStrip worths={worths} currency="USD" dots={dots} onExplain={() => undefined} />
      <div style={{ height: 32 }} />
      <LargeWorthStrip worths={hard} currency="USD" />
      <div style={{ height: 32 }} />
      <LargeWorthStrip worths={{ ...worths, restored: null }} currency="JPY" />
      <div style={{ height: 32 }} />
      <LargeWorthStrip worths={{ asFound: null, restored: null, originalFinish: null }} currency="USD" />
      <div style={{ display: 'grid', gridTemplateColumns: '260px 320px', gap: 48, marginTop: 32 }}>
        <div>
          {scale ? <WorthAxis scale={scale} /> : null}
          {many.map((one, index) => (
            <div key={index} style={{ padding: '9px 0', borderTop: '1px solid var(--hairline)' }}>
              <WorthStrip worths={one} currency="USD" scale={scale} />
            </div>
          ))}
        </div>
        <div style={{ display: 'grid', gap: 16, alignContent: 'start' }}>
          <WorthStrip size="card" worths={worths} currency="USD" />
          <WorthStrip size="card" worths={hard} currency="USD" />
          <WorthStrip size="card" worths={{ ...worths, restored: null }} currency="USD" />
          <WorthStrip
            size="card"
            worths={{ asFound: null, restored: null, originalFinish: null }}
            currency="USD"
          />
        </div>
      </div>
    </Section>
  );
};

const Fields = () => {
  const [minor, setMinor] = useState<number | null>(125000);
  const [casting, setCasting] = useState('');
  return (
    <Section id="fields" title="Fields and notices">
      <div style={{ display: 'flex', gap: 16, alignItems: 'flex-end' }}>
        <MoneyInput label="Price" currency="USD" value={minor} onChange={setMinor} />
        <MoneyInput
          label="Price"
          currency="JPY"
          value={1250}
          onChange={() => undefined}
          description="Whole yen"
        />
        <TypeAhead
          label="Casting"
          value={casting}
          choices={choices}
          onPick={choice => setCasting(choice.label)}
        />
        <ChangingAmount minor={minor} currency="USD" />
        <Button variant="filled" onClick={() => showUndoNotice('3 cars graded', () => undefined)}>
          Write
        </Button>
        <Button
          color="brick"
          variant="filled"
          onClick={() => showProblem('That could not be saved', 'The disk is full. Nothing was changed.')}
        >
          Fail
        </Button>
        <Button variant="light">Light</Button>
        <Button variant="subtle">Subtle</Button>
        <Button disabled>Disabled</Button>
        <KeyHint keys="mod+shift+Z" />
      </div>
    </Section>
  );
};

export const PartsPage = () => (
  <>
    <PageHeader
      title="Barn tin"
      facts="14 Mar 2026 · 412.50 USD · 9 of 16 graded"
      back={{ label: 'Lots', to: '/lots' }}
      actions={
        <>
          <Button>Import</Button>
          <Button variant="filled">Add cars</Button>
        </>
      }
    />
    <StickyIndex entries={entries} />
    <div className="page">
      <Worth />
      <Section id="chips" title="Lacquer chips">
        <div style={{ display: 'grid', gridTemplateColumns: 'repeat(5, 1fr)', gap: 12 }}>
          {colours.map(([name, swatch], index) => (
            <LacquerChip key={name} name={name} swatch={swatch} basePaint={basePaints[index % 4]} />
          ))}
          {colours.slice(0, 5).map(([name, swatch], index) => (
            <LacquerChip
              key={name}
              name={name}
              swatch={swatch}
              basePaint={basePaints[index % 4]}
              size="card"
            />
          ))}
          {basePaints.map(base => (
            <LacquerChip key={base} name={base} swatch="#1f7fa6" basePaint={base} size="large" />
          ))}
          <LacquerChip name={null} swatch={null} size="large" />
        </div>
      </Section>
      <Section id="marks" title="Marks">
        <div style={{ display: 'flex', flexWrap: 'wrap', gap: 24 }}>
          {recommendations.map(recommendation => (
            <RecommendationMark key={recommendation} recommendation={recommendation} probability={0.73} />
          ))}
        </div>
        <div style={{ display: 'flex', flexWrap: 'wrap', gap: 24, marginTop: 12 }}>
          {finishStates.map(state => (
            <FinishState key={state} state={state} />
          ))}
          {[10, 7.5, 4, 1, null].map(grade => (
            <GradeBadge key={grade} grade={grade} finishState="original" />
          ))}
          <GradeBadge grade={9} finishState="restored" />
        </div>
        <p>
          <RecommendationMark
            recommendation="restore"
            probability={0.81}
            why="It gains 34 over leaving, and nothing guards against paint."
          />
        </p>
      </Section>
      <Section id="amounts" title="Amounts">
        <div style={{ display: 'flex', gap: 32 }}>
          <Amount minor={125000} currency="USD" />
          <Amount minor={null} currency="USD" />
          <Amount minor={3649} currency="USD" estimate />
          <AmountDelta minor={3400} currency="USD" />
          <AmountDelta minor={-1250} currency="USD" />
          <AmountDelta minor={0} currency="USD" />
          <RangeText range={worths.asFound} currency="USD" />
          <RangeText range={null} currency="USD" />
          <Photo sha256={null} alt="" width={160} height={100} />
          <Photo sha256={'0'.repeat(64)} alt="A car" width={160} height={100} />
        </div>
      </Section>
      <Fields />
      <Section id="states" title="States">
        <EmptyState title="No lots yet" actions={<Button variant="filled">Enter a lot</Button>}>
          A lot is what you bought for one price. Enter its cars in the grid, or import a spreadsheet.
        </EmptyState>
        <ErrorState error={new Error('The data service does not answer.')} retry={() => undefined} />
      </Section>
    </div>
  </>
);
