import { useEffect, useState } from 'react';
import type { SaleLineRow } from '../../../../electron/api/views.ts';
import type { SaleLineField } from '../../../../valuation/reading/sale-line/read-sale-line.ts';
import type { Currency } from '../../../../valuation/types.ts';

/** What the user says of one line. */
export interface LineCorrection {
  fields: Partial<Record<SaleLineField, string>>;
  castingId?: number | undefined;
  /** Taken as one car's sale, or left out; without it, as it was read. */
  take?: 'add' | 'leave' | undefined;
}

/** A text of sales that is being looked at; nothing of it is recorded yet. */
export interface PasteDraft {
  text: string;
  dates: 'dmy' | 'mdy' | null;
  currency: Currency | null;
  /** By line, as `lineKey` tells one, so that a changed text loses none of them. */
  corrections: ReadonlyMap<string, LineCorrection>;
}

export const emptyPaste: PasteDraft = { text: '', dates: null, currency: null, corrections: new Map() };

/** Tells a line by its text, and among equal ones by its place. */
export const lineKeys = (text: string): Map<number, string> => {
  const times = new Map<string, number>();
  return new Map(
    text.split(/\r\n|\n|\r/).map((line, at) => {
      const shown = line.trim();
      const time = (times.get(shown) ?? 0) + 1;
      times.set(shown, time);
      return [at + 1, `${shown}\n${time}`];
    }),
  );
};

/** The corrections as the procedures take them. */
export const correctionsInput = ({ text, corrections }: PasteDraft) =>
  corrections.size === 0
    ? []
    : [...lineKeys(text)].flatMap(([line, key]) => {
        const said = corrections.get(key);
        if (!said) return [];
        const { fields, castingId, take } = said;
        if (Object.keys(fields).length === 0 && castingId === undefined && take !== 'add') return [];
        return [
          {
            line,
            fields,
            ...(castingId !== undefined && { castingId }),
            ...(take === 'add' && { oneCar: true }),
          },
        ];
      });

export type Standing = 'add' | 'lacks' | 'no-car' | 'recorded' | 'left-out';

export interface PasteRow extends SaleLineRow {
  key: string;
  standing: Standing;
  /** Was corrected by the user. */
  corrected: boolean;
}

/** What becomes of a line as things stand. */
export const standingOf = (row: SaleLineRow, said: LineCorrection | undefined): Standing => {
  if (said?.take === 'leave') return 'left-out';
  if (row.known) return 'recorded';
  if (row.not === 'lot' || row.not === 'not a car') return 'no-car';
  return row.not === null ? 'add' : 'lacks';
};

export const lacking = ({ fields }: Pick<SaleLineRow, 'fields'>): string => {
  const lacks = [...(fields.price ? [] : ['price']), ...(fields.sold_on ? [] : ['date'])];
  return lacks.length === 2 ? 'lacks price and date' : `lacks a ${lacks[0]}`;
};

const storeKey = (dir: string) => `playworn-paste ${dir}`;

const storedDraft = (dir: string): PasteDraft => {
  const stored = sessionStorage.getItem(storeKey(dir));
  if (!stored) return emptyPaste;
  const { corrections, ...draft } = JSON.parse(stored) as Omit<PasteDraft, 'corrections'> & {
    corrections: [string, LineCorrection][];
  };
  return { ...draft, corrections: new Map(corrections) };
};

/** The draft of this window for a collection, which outlives the screen until it is recorded or cleared. */
export const usePasteDraft = (dir: string) => {
  const [draft, setDraft] = useState(() => storedDraft(dir));
  useEffect(() => {
    const { corrections, ...rest } = draft;
    try {
      if (draft.text === '') sessionStorage.removeItem(storeKey(dir));
      else sessionStorage.setItem(storeKey(dir), JSON.stringify({ ...rest, corrections: [...corrections] }));
    } catch {
      // A text larger than the window keeps lives only as long as the screen.
      sessionStorage.removeItem(storeKey(dir));
    }
  }, [draft, dir]);
  return [draft, setDraft] as const;
};
