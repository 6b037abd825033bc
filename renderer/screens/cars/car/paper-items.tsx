import { Menu } from '@mantine/core';
import { api } from '../../../api/client.ts';
import { errorSentence } from '../../../api/error-sentence.ts';
import { readerLocale } from '../../../components/format.ts';
import { saveFile } from '../../../components/notices/save-file.ts';
import { showNotice, showProblem } from '../../../components/notices/undo-notice.tsx';
import { usualPaper } from '../../../components/usual-paper.ts';

const papers = [
  { kind: 'dossier', label: 'Dossier: all that is known of it' },
  { kind: 'sale-sheet', label: 'Sale sheet: one honest page for a buyer' },
  { kind: 'claim', label: 'Claim sheet: value before and after' },
  { kind: 'bench-sheet', label: 'Bench sheet: steps and cautions' },
] as const;

/** Makes a paper of one car and saves it; what is missing for it is said. */
const make = async (carId: number, kind: (typeof papers)[number]['kind']): Promise<void> => {
  const locale = readerLocale();
  try {
    for await (const step of await api.papers.make({ kind, carId, locale, paper: usualPaper(locale) }))
      if (step.type === 'done') {
        await saveFile(step.result);
        showNotice(`${step.result.fileName} made`);
      }
  } catch (error) {
    showProblem('The paper could not be made', errorSentence(error));
  }
};

/** The papers of one car, in its menu. */
export const PaperItems = ({ carId }: { carId: number }) => (
  <>
    <Menu.Label>Print</Menu.Label>
    {papers.map(({ kind, label }) => (
      <Menu.Item key={kind} onClick={() => void make(carId, kind)}>
        {label}
      </Menu.Item>
    ))}
    <Menu.Divider />
  </>
);
