import { readerLocale } from '../../../components/format.ts';

/** How a figure is written for people: 0.62 as "62" per cent, 1.4 as "1.4" times. */
export interface FigureKind {
  /** What stands behind it. */
  unit: string;
  /** Written figure = kept figure × scale. */
  scale: number;
  least: number;
  most: number;
  /** Decimals shown at most. */
  digits: number;
}

export const percent: FigureKind = { unit: '%', scale: 100, least: 0, most: 100, digits: 1 };
export const times: FigureKind = { unit: '×', scale: 1, least: 0.01, most: 1000, digits: 3 };
export const years: FigureKind = { unit: 'years', scale: 1, least: 0.1, most: 1000, digits: 1 };
export const spread: FigureKind = { unit: '', scale: 1, least: 0, most: 5, digits: 3 };
export const hours: FigureKind = { unit: 'h', scale: 1, least: 0, most: 10_000, digits: 2 };

/** A kept figure as it is written, without superfluous noughts: 0.07 as "7", 0.125 as "12.5". */
export const figureText = (value: number, { scale, digits }: FigureKind): string =>
  new Intl.NumberFormat(readerLocale(), { maximumFractionDigits: digits, useGrouping: false }).format(
    value * scale,
  );

/** The figure in a text, or a sentence that says why there is none. */
export const readFigure = (text: string, kind: FigureKind): { value: number } | { problem: string } => {
  const bare = text.trim().replace(/[%×]$/, '').trim().replace(',', '.');
  const written = Number(bare);
  if (bare === '' || !Number.isFinite(written)) return { problem: 'A number is needed' };
  if (written < kind.least || written > kind.most)
    return { problem: `Between ${kind.least} and ${kind.most}` };
  // Through text, so that 7 % is kept as 0.07 and not as 0.07000000000000001.
  return { value: Number((written / kind.scale).toPrecision(12)) };
};
