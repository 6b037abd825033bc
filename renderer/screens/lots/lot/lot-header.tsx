import { ActionIcon, Button, Popover } from '@mantine/core';
import { useState } from 'react';
import type { LotPage } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { useSummary } from '../../../api/use-summary.ts';
import { amountText, dateText } from '../../../components/format.ts';
import { useKeys } from '../../../components/keys/use-keys.ts';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { ButtonLink } from '../button-link.tsx';
import { BidPanel } from './bid-panel.tsx';
import { type Buying, BuyLot } from './buy-lot.tsx';
import { LotDetails } from './lot-details.tsx';
import evidence from './lot-evidence.module.css';
import { LotEvidence } from './lot-evidence.tsx';
import { LotFigures } from './lot-figures.tsx';
import type { Dealing } from './use-dealing.tsx';
import type { InspectorState } from './use-inspector.ts';

const PanelIcon = () => (
  <svg width="16" height="16" viewBox="0 0 16 16" fill="none" stroke="currentColor" aria-hidden="true">
    <rect x="1.5" y="2.5" width="13" height="11" rx="1.5" />
    <path d="M10 2.5 V13.5" />
  </svg>
);

const count = (done: number, all: number, word: string) =>
  done === all ? `all ${word}` : `${done.toLocaleString()} of ${all.toLocaleString()} ${word}`;

/**
 * The head of a lot: what it is, how far it is catalogued, how it stands, and what can be done with
 * the whole of it.
 */
export const LotHeader = ({
  lot,
  currency,
  inspector,
  dealing,
}: {
  lot: LotPage;
  currency: Currency;
  inspector: InspectorState;
  dealing: Dealing;
}) => {
  const [details, setDetails] = useState(false);
  const [bidding, setBidding] = useState(false);
  const [buying, setBuying] = useState<Buying | null>(null);
  const { data: summary } = useSummary();
  useKeys('Lot', [
    { keys: 'alt+D', does: 'Details and cost of the lot', run: () => setDetails(true) },
    { keys: 'alt+B', does: 'Highest bid', run: () => setBidding(true) },
  ]);
  const facts = [
    lot.boughtOn ? dateText(lot.boughtOn) : lot.isSeen ? 'seen, not bought' : null,
    lot.seller || null,
    lot.costs.length
      ? `${amountText(lot.cost, lot.currency)} ${lot.currency}`
      : lot.isSeen
        ? null
        : 'no cost entered yet',
    ...(lot.carCount === 0
      ? ['no cars yet']
      : [
          `${lot.carCount.toLocaleString()} ${lot.carCount === 1 ? 'car' : 'cars'}`,
          count(lot.gradedCount, lot.carCount, 'graded'),
          count(lot.identifiedCount, lot.carCount, 'identified'),
          count(lot.photographedCount, lot.carCount, 'photographed'),
        ]),
  ];
  return (
    <>
      <PageHeader
        title={lot.name}
        facts={facts.filter(Boolean).join(' · ')}
        back={{ label: 'Lots', to: '/lots' }}
        actions={
          <>
            <Popover
              opened={bidding}
              onChange={setBidding}
              position="bottom-end"
              width={360}
              trapFocus
              returnFocus
            >
              <Popover.Target>
                <Button onClick={() => setBidding(!bidding)}>Highest bid</Button>
              </Popover.Target>
              <Popover.Dropdown>
                <BidPanel
                  lot={lot}
                  currency={currency}
                  onBought={next => {
                    setBidding(false);
                    setBuying(next);
                  }}
                />
              </Popover.Dropdown>
            </Popover>
            {dealing.possible ? (
              <Button loading={dealing.underway} onClick={dealing.choose}>
                Photographs
              </Button>
            ) : null}
            {dealing.field}
            <ButtonLink href={`/import?lot=${lot.id}`}>Import cars</ButtonLink>
            <Button onClick={() => setDetails(true)}>Details and cost</Button>
            <ActionIcon
              aria-label={inspector.shown ? 'Hide the inspector' : 'Show the inspector'}
              aria-pressed={inspector.shown}
              title="Inspector (Alt I)"
              onClick={inspector.toggle}
            >
              <PanelIcon />
            </ActionIcon>
          </>
        }
      />
      {lot.carCount > 0 ? (
        <>
          <LotFigures lot={lot} currency={currency} />
          {lot.isSeen ? <SeenLine /> : <LotEvidence lot={lot} onDetails={() => setDetails(true)} />}
        </>
      ) : (
        <Beginning lotId={lot.id} />
      )}
      {buying && summary ? (
        <BuyLot
          lot={lot}
          buying={buying}
          currency={currency}
          today={summary.today}
          onClose={() => setBuying(null)}
        />
      ) : null}
      {details ? <LotDetails lot={lot} onClose={() => setDetails(false)} /> : null}
    </>
  );
};

/** What it means that a lot was only seen. */
const SeenLine = () => (
  <p className={evidence.line}>
    Seen, not bought: its cars do not count among yours until you save the lot as bought, under “Highest bid”.
  </p>
);

const Beginning = ({ lotId }: { lotId: number }) => (
  <p className="soft" style={{ margin: '0 24px 12px', maxWidth: '88ch' }}>
    Start in the line below: type the first letters of a casting, press Tab for the next column and Enter for
    the next car. Rows copied from a spreadsheet can be pasted there, and photographs dropped onto a row.{' '}
    <a href={`#/lots/import?lot=${lotId}`}>Import them from a file</a> if there are many.
  </p>
);
