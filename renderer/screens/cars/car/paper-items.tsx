import { Checkbox, Menu, Modal } from '@mantine/core';
import { useEffect, useState } from 'react';
import type { ReportResult } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useProgress } from '../../../api/use-progress.ts';
import { readerLocale } from '../../../components/format.ts';
import { WorkProgress } from '../../../components/notices/work-progress.tsx';
import { MadePaper } from '../../../components/papers/made-paper.tsx';
import { usualPaper } from '../../../components/usual-paper.ts';
import classes from './paper-items.module.css';

const papers = [
  { kind: 'dossier', label: 'Dossier: all that is known of it' },
  { kind: 'sale-sheet', label: 'Sale sheet: one honest page for a buyer' },
  { kind: 'claim', label: 'Claim sheet: value before and after' },
  { kind: 'bench-sheet', label: 'Bench sheet: steps and cautions' },
] as const;
export type CarPaperKind = (typeof papers)[number]['kind'];

/** The papers of one car, in its menu. */
export const PaperItems = ({ onChoose }: { onChoose: (kind: CarPaperKind) => void }) => (
  <>
    <Menu.Label>Print</Menu.Label>
    {papers.map(({ kind, label }) => (
      <Menu.Item key={kind} onClick={() => onChoose(kind)}>
        {label}
      </Menu.Item>
    ))}
    <Menu.Divider />
  </>
);

interface Edition {
  withoutValues: boolean;
  withoutPlaces: boolean;
}

const Making = ({ carId, kind, edition }: { carId: number; kind: CarPaperKind; edition: Edition }) => {
  const work = useProgress<ReportResult>();
  const { start } = work;
  useEffect(() => {
    const locale = readerLocale();
    const wanted = { kind, carId, locale, paper: usualPaper(locale), preview: true, ...edition };
    void start(signal => api.papers.make(wanted, { signal }));
  }, [carId, kind, edition, start]);
  return (
    <div aria-live="polite">
      <WorkProgress work={work} label="Making the paper" />
      {work.state.is === 'done' ? <MadePaper result={work.state.result} /> : null}
    </div>
  );
};

const whole: Edition = { withoutValues: false, withoutPlaces: false };

/** A dossier can leave out what is nobody else's business. */
const Editions = ({ edition, onChange }: { edition: Edition; onChange: (edition: Edition) => void }) => (
  <div className={classes.editions}>
    <Checkbox
      label="Leave out values and prices"
      checked={edition.withoutValues}
      onChange={event => onChange({ ...edition, withoutValues: event.currentTarget.checked })}
    />
    <Checkbox
      label="Leave out where it is kept"
      checked={edition.withoutPlaces}
      onChange={event => onChange({ ...edition, withoutPlaces: event.currentTarget.checked })}
    />
  </div>
);

/** A paper of one car, made, looked at, and saved; what is missing for it is said. */
export const CarPaper = ({
  carId,
  kind,
  onClose,
}: {
  carId: number;
  kind: CarPaperKind | null;
  onClose: () => void;
}) => {
  const [edition, setEdition] = useState(whole);
  return (
    <Modal
      opened={kind !== null}
      onClose={onClose}
      title={papers.find(paper => paper.kind === kind)?.label}
      size="xl"
      closeButtonProps={{ 'aria-label': 'Close' }}
    >
      {kind === 'dossier' ? <Editions edition={edition} onChange={setEdition} /> : null}
      {kind ? (
        <Making
          key={JSON.stringify(edition)}
          carId={carId}
          kind={kind}
          edition={kind === 'dossier' ? edition : whole}
        />
      ) : null}
    </Modal>
  );
};
