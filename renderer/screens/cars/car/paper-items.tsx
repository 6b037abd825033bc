import { Menu, Modal } from '@mantine/core';
import { useEffect } from 'react';
import type { ReportResult } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useProgress } from '../../../api/use-progress.ts';
import { readerLocale } from '../../../components/format.ts';
import { WorkProgress } from '../../../components/notices/work-progress.tsx';
import { MadePaper } from '../../../components/papers/made-paper.tsx';
import { usualPaper } from '../../../components/usual-paper.ts';

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

const Making = ({ carId, kind }: { carId: number; kind: CarPaperKind }) => {
  const work = useProgress<ReportResult>();
  const { start } = work;
  useEffect(() => {
    const locale = readerLocale();
    const wanted = { kind, carId, locale, paper: usualPaper(locale), preview: true };
    void start(signal => api.papers.make(wanted, { signal }));
  }, [carId, kind, start]);
  return (
    <div aria-live="polite">
      <WorkProgress work={work} label="Making the paper" />
      {work.state.is === 'done' ? <MadePaper result={work.state.result} /> : null}
    </div>
  );
};

/** A paper of one car, made, looked at, and saved; what is missing for it is said. */
export const CarPaper = ({
  carId,
  kind,
  onClose,
}: {
  carId: number;
  kind: CarPaperKind | null;
  onClose: () => void;
}) => (
  <Modal
    opened={kind !== null}
    onClose={onClose}
    title={papers.find(paper => paper.kind === kind)?.label}
    size="xl"
    closeButtonProps={{ 'aria-label': 'Close' }}
  >
    {kind ? <Making carId={carId} kind={kind} /> : null}
  </Modal>
);
