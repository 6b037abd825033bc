import type { ImportKind } from '../../../../electron/api/views.ts';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { readerWords } from '../../../components/words.ts';
import choose from './choose.module.css';
import { DropFile } from './drop-file.tsx';
import type { ListKind } from './import-choice.ts';
import { KindSwitch } from './kind-switch.tsx';
import { PasteText } from './paste-text.tsx';

const about: Record<ImportKind, { reads: string; columns: string }> = {
  lot: {
    reads:
      'One row for each car, or for several of a kind. A name is all that a row needs; whatever is not understood is saved as you wrote it and asked about once.',
    columns:
      'number · casting · release · year · colour · base paint · rear end · grade · finish state · price paid · bought on · seller · own estimate · sold on · sold for · quantity · missing parts · location · notes · description',
  },
  sales: {
    reads:
      'One row for each sale you have seen: its date, its price, and what was sold, in columns or in words. They are the evidence behind every value.',
    columns:
      'date · price · currency · casting · colour · base paint · rear end · grade · finish state · missing parts · source · description',
  },
  reference: {
    reads: 'One row for each variation: the casting, and what tells this one apart.',
    columns:
      'maker · series · casting · release · year · colour · body finish · base paint · rear end · roof · interior · wheels · rarity',
  },
};

/**
 * Before there is a list: what kinds there are, the ways to hand one over, and what such a list looks like.
 */
export const ChooseFile = ({
  as,
  onKind,
  onFile,
  onText,
}: {
  as: ImportKind;
  onKind: (as: ListKind) => void;
  onFile: (file: File) => void;
  onText: (text: string) => void;
}) => (
  <>
    <PageHeader
      title="Import a spreadsheet"
      facts="In any layout: you see what happens to every row before anything is imported"
      back={{ label: 'Lots', to: '/lots' }}
    />
    <div className={`page ${choose.choose}`}>
      <KindSwitch as={as} onKind={onKind} />
      <div className={choose.ways}>
        <div className={choose.drop}>
          <p className={choose.dropLead}>Drop a CSV or XLSX file here</p>
          <DropFile label="Choose a file" primary onFile={onFile} />
        </div>
        <PasteText onText={onText} />
      </div>
      <dl className={choose.about}>
        <dt>What it reads</dt>
        <dd>{about[as].reads}</dd>
        <dt>Columns it knows</dt>
        <dd>
          {readerWords().spell(about[as].columns)}. Yours may have other names and another order; you say what
          each means where it is not clear.
        </dd>
        <dt>It can handle</dt>
        <dd>
          Titles, blank lines, totals, several blocks or sheets, no headings at all; days and amounts in any
          order and with either sign; “C7.5”, “7/10”, stars, letters and “mint” for grades; several facts in
          one cell. Nothing you wrote refuses a row: a line is left out only where nothing in it says which
          car it is, and you see which and why.
        </dd>
      </dl>
    </div>
  </>
);
