import type { ReactNode } from 'react';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import choose from './choose.module.css';
import { ChooseSpreadsheet } from './choose-spreadsheet.tsx';
import type { ListKind } from './import-choice.ts';
import { KindSwitch } from './kind-switch.tsx';
import { PasteText } from './paste-text.tsx';

export interface WaysIn {
  onKind: (as: ListKind) => void;
  onFile: (file: File) => void;
  onText: (text: string) => void;
}

/**
 * The page before there is a list: what kinds there are, the ways to hand one over, and as its children the
 * entries that say what such a list looks like.
 */
export const BeforeList = ({
  as,
  facts,
  example,
  ways,
  children,
}: {
  as: ListKind;
  facts: string;
  /** The headings that such a list has, with tabs between. */
  example?: string;
  ways: WaysIn;
  children: ReactNode;
}) => (
  <>
    <PageHeader title="Import a spreadsheet" facts={facts} back={{ label: 'Lots', to: '/lots' }} />
    <div className={`page ${choose.choose}`}>
      <KindSwitch as={as} onKind={ways.onKind} />
      <div className={choose.ways}>
        <div className={choose.drop}>
          <p className={choose.dropLead}>Drop a CSV or XLSX file here</p>
          <ChooseSpreadsheet label="Choose a file" primary onFile={ways.onFile} />
        </div>
        <PasteText example={example} onText={ways.onText} />
      </div>
      <dl className={choose.about}>{children}</dl>
    </div>
  </>
);
