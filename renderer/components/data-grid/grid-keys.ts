import type { KeyPress } from '../keys/key-match.ts';
import type { Step } from './cursor.ts';

/** What a key means to a grid that is not being edited in. */
export type GridCommand =
  | { do: 'move'; step: Step; extend: boolean }
  | { do: 'edit'; text: string | null }
  | { do: 'open' | 'new row' | 'fill down' | 'clear' | 'select all' | 'collapse' | 'delete rows' }
  | { do: 'tab'; back: boolean }
  | { do: 'resize' | 'move column'; by: number };

const arrows: Record<string, [Step, Step]> = {
  ArrowUp: ['up', 'top'],
  ArrowDown: ['down', 'bottom'],
  ArrowLeft: ['left', 'row start'],
  ArrowRight: ['right', 'row end'],
  Home: ['row start', 'first'],
  End: ['row end', 'last'],
  PageUp: ['page up', 'page up'],
  PageDown: ['page down', 'page down'],
};

/** Reads a key; null leaves it to the page. Enter edits or opens, whichever the cell allows. */
export const gridCommand = (press: KeyPress): GridCommand | null => {
  const mod = press.ctrlKey || press.metaKey;
  const { key, shiftKey, altKey } = press;
  const arrow = arrows[key];
  if (altKey) {
    if (key === 'ArrowDown') return { do: 'edit', text: null };
    if (shiftKey && (key === 'ArrowLeft' || key === 'ArrowRight'))
      return { do: 'move column', by: key === 'ArrowLeft' ? -1 : 1 };
    if (key === 'ArrowLeft' || key === 'ArrowRight')
      return { do: 'resize', by: key === 'ArrowLeft' ? -16 : 16 };
    return null;
  }
  if (arrow) return { do: 'move', step: arrow[mod ? 1 : 0], extend: shiftKey };
  if (mod) {
    if (key === 'Enter') return { do: 'open' };
    if (key.toLowerCase() === 'i' && !shiftKey) return { do: 'new row' };
    if (key === 'Delete' || key === 'Backspace') return { do: 'delete rows' };
    if (key.toLowerCase() === 'd' && !shiftKey) return { do: 'fill down' };
    if (key.toLowerCase() === 'a' && !shiftKey) return { do: 'select all' };
    return null;
  }
  switch (key) {
    case 'Enter':
    case 'F2':
      return { do: 'edit', text: null };
    case 'Insert':
      return { do: 'new row' };
    case 'Escape':
      return { do: 'collapse' };
    case 'Delete':
    case 'Backspace':
      return { do: 'clear' };
    case 'Tab':
      return { do: 'tab', back: shiftKey };
    default:
      // "?" stays with the sheet of keys, as nothing that is catalogued begins with it.
      return [...key].length === 1 && key !== '?' ? { do: 'edit', text: key } : null;
  }
};

/** The grid's keys, for the sheet. */
export const gridKeyList = (editable: boolean, appends = false, moves = false) => [
  { keys: 'ArrowUp ArrowDown ArrowLeft ArrowRight', does: 'Move; with Shift select, with Ctrl to the edge' },
  { keys: 'PageUp PageDown', does: 'A page up or down' },
  { keys: 'Home End', does: 'First and last column; with Ctrl first and last row' },
  { keys: 'mod+Enter', does: 'Open the row' },
  { keys: 'mod+C', does: 'Copy the range for a spreadsheet' },
  ...(editable
    ? [
        { keys: 'F2 Enter', does: 'Edit the cell; typing replaces it' },
        { keys: 'Tab', does: 'While entering: the next cell. Enter: the next row, where the Tabs began' },
        ...(appends ? [{ keys: 'mod+I Insert', does: 'To the blank line at the foot' }] : []),
        { keys: 'mod+D', does: 'Fill down, or copy from the row above' },
        { keys: 'mod+V', does: 'Paste rows and columns from a spreadsheet' },
        { keys: 'Delete', does: 'Clear the range' },
        { keys: 'Escape', does: 'Put the cell back; then Tab leaves the grid' },
      ]
    : []),
  { keys: 'alt+ArrowLeft alt+ArrowRight', does: 'On a heading: narrower, wider. Enter sorts' },
  ...(moves
    ? [{ keys: 'alt+shift+ArrowLeft alt+shift+ArrowRight', does: 'On a heading: move the column' }]
    : []),
];
