import { useMemo } from 'react';
import { ChoiceEditor } from './choice-editor.tsx';
import { parseCell } from './parse-cell.ts';
import { type EditorProps, TextEditor } from './text-editor.tsx';
import type { GridColumn } from './types.ts';

/** The editor that a column asks for. */
export const CellEditor = <Row,>({
  column,
  row,
  ...rest
}: Omit<EditorProps, 'label' | 'parse'> & { column: GridColumn<Row>; row: Row | null }) => {
  const { editor } = column;
  const source = useMemo(() => {
    if (editor?.kind === 'select') return editor.choices;
    return editor?.kind === 'type-ahead' ? editor.choices(row) : null;
  }, [editor, row]);
  const shared = { ...rest, label: column.title, parse: (text: string) => parseCell(column, text, row) };
  if (!source) return <TextEditor {...shared} />;
  return (
    <ChoiceEditor
      {...shared}
      source={source}
      means={column.means}
      freeText={editor?.kind === 'type-ahead' && editor.freeText === true}
    />
  );
};
