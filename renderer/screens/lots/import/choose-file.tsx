import { SegmentedControl } from '@mantine/core';
import type { ImportKind } from '../../../../electron/api/views.ts';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { readerWords } from '../../../components/words.ts';
import { DropFile } from './drop-file.tsx';
import classes from './import.module.css';
import { isKind, kindWords } from './import-choice.ts';
import { PasteText } from './paste-text.tsx';

const about: Record<ImportKind, { reads: string; columns: string }> = {
  lot: {
    reads:
      'One row for each car. A casting is all that a row needs; anything the reference does not know is saved as you wrote it.',
    columns:
      'number · casting · release · year · colour · base paint · rear end · grade · finish state · location · notes',
  },
  sales: {
    reads:
      'One row for each sale you have seen: its date, its price, and which casting. They are the evidence behind every value.',
    columns:
      'date · price · currency · casting · colour · base paint · rear end · grade · finish state · missing parts · source',
  },
  reference: {
    reads: 'One row for each variation: the casting, and what tells this one apart.',
    columns:
      'maker · series · casting · release · year · colour · body finish · base paint · rear end · roof · interior · wheels · rarity',
  },
};

export const KindSwitch = ({ as, onKind }: { as: ImportKind; onKind: (as: ImportKind) => void }) => (
  <SegmentedControl
    aria-label="What the file holds"
    classNames={{ root: classes.kinds }}
    value={as}
    onChange={value => isKind(value) && onKind(value)}
    data={Object.entries(kindWords).map(([value, { title }]) => ({ value, label: title }))}
  />
);

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
  onKind: (as: ImportKind) => void;
  onFile: (file: File) => void;
  onText: (text: string) => void;
}) => (
  <>
    <PageHeader
      title="Import a spreadsheet"
      facts="In any layout: you see what happens to every row before anything is imported"
      back={{ label: 'Lots', to: '/lots' }}
    />
    <div className={`page ${classes.choose}`}>
      <KindSwitch as={as} onKind={onKind} />
      <div className={classes.ways}>
        <div className={classes.drop}>
          <p className={classes.dropLead}>Drop a CSV or XLSX file here</p>
          <DropFile label="Choose a file" primary onFile={onFile} />
        </div>
        <PasteText onText={onText} />
      </div>
      <dl className={classes.about}>
        <dt>What it reads</dt>
        <dd>{about[as].reads}</dd>
        <dt>Columns it knows</dt>
        <dd>
          {readerWords().spell(about[as].columns)}. Yours may have other names and another order; you say what
          each means where it is not clear.
        </dd>
        <dt>It can handle</dt>
        <dd>
          Titles above the headings, blank rows, mixed formats of dates and amounts, “C7.5”, “7” and “7/10”
          for grades, files from other programs. A row that cannot be read is listed with its line, column and
          reason; the others are imported.
        </dd>
      </dl>
    </div>
  </>
);
