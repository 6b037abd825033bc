import { useCallback, useMemo, useState } from 'react';
import { Amount } from '../../../renderer/components/amounts/amount.tsx';
import { DataGrid } from '../../../renderer/components/data-grid/data-grid.tsx';
import type { CellChange, GridColumn, NewRow } from '../../../renderer/components/data-grid/types.ts';
import { LacquerChip } from '../../../renderer/components/lacquer-chip/lacquer-chip.tsx';
import { PageHeader } from '../../../renderer/components/layout/page-header.tsx';
import { FinishState } from '../../../renderer/components/marks/finish-state.tsx';
import { GradeBadge } from '../../../renderer/components/marks/grade-badge.tsx';
import { RecommendationMark } from '../../../renderer/components/marks/recommendation-mark.tsx';
import { Photo } from '../../../renderer/components/photo/photo.tsx';
import { worthScale } from '../../../renderer/components/worth-strip/scale.ts';
import { WorthAxis } from '../../../renderer/components/worth-strip/worth-axis.tsx';
import { WorthStrip } from '../../../renderer/components/worth-strip/worth-strip.tsx';
import { type FinishState as Finish, finishStates } from '../../../valuation/words.ts';
import { castings, colours, type SampleCar, sampleCars } from './sample-cars.ts';

const castingChoices = castings.map(name => ({ value: name, label: name, detail: 'Wrenmoor Road' }));
const searchCastings = async (text: string) => {
  await new Promise(resolve => setTimeout(resolve, 80));
  return castingChoices.filter(choice => choice.label.toLowerCase().includes(text.toLowerCase()));
};

const columnsFor = (rows: readonly SampleCar[]): GridColumn<SampleCar>[] => {
  const scale = worthScale(
    rows.map(row => row.worths),
    'USD',
  );
  return [
    {
      id: 'number',
      title: 'No',
      width: 84,
      pinned: true,
      value: row => row.number,
      editor: { kind: 'text' },
    },
    {
      id: 'photo',
      title: 'Photo',
      width: 60,
      sortable: false,
      value: () => null,
      render: () => <Photo sha256={null} alt="" width={44} height={28} />,
    },
    {
      id: 'casting',
      title: 'Casting',
      width: 150,
      grow: 1,
      value: row => row.casting,
      editor: { kind: 'type-ahead', choices: () => searchCastings, freeText: true },
    },
    {
      id: 'colour',
      title: 'Colour',
      width: 140,
      value: row => row.colour,
      render: row => <LacquerChip name={row.colour} swatch={row.swatch} basePaint={row.basePaint} />,
      editor: {
        kind: 'type-ahead',
        choices: () =>
          colours.map(([name, swatch]) => ({
            value: name,
            label: name,
            mark: <LacquerChip name={name} swatch={swatch} nameless />,
          })),
      },
    },
    {
      id: 'grade',
      title: 'Grade',
      width: 70,
      value: row => row.grade,
      text: row => (row.grade === null ? '' : String(row.grade)),
      render: row => <GradeBadge grade={row.grade} finishState="original" />,
      editor: {
        kind: 'number',
        parse: text => {
          const grade = Number(text.replace(/^c/i, ''));
          return grade >= 1 && grade <= 10 && Number.isInteger(grade * 2)
            ? { value: grade }
            : { problem: 'A grade is 1 to 10 in half points' };
        },
      },
    },
    {
      id: 'finish',
      title: 'Finish',
      width: 120,
      value: row => row.finish,
      render: row => <FinishState state={row.finish} />,
      editor: { kind: 'select', choices: finishStates.map(state => ({ value: state, label: state })) },
    },
    {
      id: 'paid',
      title: 'Paid',
      heading: 'USD',
      width: 80,
      align: 'end',
      value: row => row.paid,
      render: row => <Amount minor={row.paid} currency="USD" />,
    },
    {
      id: 'worth',
      title: 'Worth',
      heading: scale ? <WorthAxis scale={scale} /> : null,
      width: 220,
      grow: 1,
      value: row => row.worths.asFound?.mid ?? null,
      render: row => <WorthStrip worths={row.worths} currency="USD" scale={scale} />,
    },
    {
      id: 'recommendation',
      title: 'Recommendation',
      width: 170,
      value: row => row.recommendation,
      render: row => <RecommendationMark recommendation={row.recommendation} probability={row.probability} />,
    },
  ];
};

const blank = (id: string, cells: NewRow): SampleCar => {
  const car: SampleCar = {
    id,
    number: '',
    casting: '',
    colour: '',
    swatch: null,
    basePaint: '',
    grade: null,
    finish: 'original',
    paid: 0,
    recommendation: 'not-enough-evidence',
    probability: 0,
    worths: { asFound: null, restored: null, originalFinish: null },
    notes: '',
  };
  return cells.reduce(change, car);
};

const change = (car: SampleCar, { columnId, value }: Omit<CellChange, 'rowId'>): SampleCar => {
  switch (columnId) {
    case 'number':
      return { ...car, number: String(value ?? '') };
    case 'casting':
      return { ...car, casting: String(value ?? '') };
    case 'colour':
      return {
        ...car,
        colour: String(value ?? ''),
        swatch: colours.find(([name]) => name === value)?.[1] ?? null,
      };
    case 'grade':
      return { ...car, grade: value === null ? null : Number(value) };
    case 'finish':
      return { ...car, finish: (value ?? 'original') as Finish };
    default:
      return car;
  }
};

const later = () => new Promise(resolve => setTimeout(resolve, 40));
const getRowId = (row: SampleCar) => row.id;

export const GridPage = ({ count }: { count: number }) => {
  const [rows, setRows] = useState(() => sampleCars(count));
  const [opened, setOpened] = useState('');
  const [actions, setActions] = useState(0);
  const columns = useMemo(() => columnsFor(sampleCars(200)), []);
  const edit = useCallback(async (changes: CellChange[]) => {
    await later();
    setActions(before => before + 1);
    setRows(before => {
      const byRow = Map.groupBy(changes, one => one.rowId);
      return before.map(row => (byRow.get(row.id) ?? []).reduce(change, row));
    });
  }, []);
  const append = useCallback(async (added: NewRow[]) => {
    await later();
    setActions(before => before + 1);
    setRows(before => [
      ...before,
      ...added.map((cells, index) => blank(`new ${before.length + index}`, cells)),
    ]);
  }, []);
  return (
    <div className="fill">
      <PageHeader
        title="Barn tin"
        facts={`14 Mar 2026 · 412.50 USD · ${rows.length} cars · ${actions} actions`}
      />
      <DataGrid
        label="Cars of this lot"
        rows={rows}
        columns={columns}
        getRowId={getRowId}
        onEdit={edit}
        onAppend={append}
        onOpen={setOpened}
        rowState={row => (row.grade === null ? { tone: 'caution', label: 'Not graded yet' } : null)}
        footer={`shared 412.50 = 412.50 ✓ · opened ${opened || 'nothing'}`}
      />
    </div>
  );
};
