import { featureColumns } from '../../valuation/reading/feature-columns.ts';
import {
  type Cell,
  isAmountCell,
  notUnderstood,
  type Reading,
  understood,
} from '../../valuation/reading/reading.ts';
import { readParts, readYear } from '../../valuation/reading/words.ts';
import { type PartName, type VariationFeature, variationFeatures } from '../../valuation/words.ts';

/** Whose field a column fills. */
export type DetailOf = 'maker' | 'series' | 'casting' | 'release' | 'variation';

/** A column of a reference file that says more of a thing than what tells it apart. */
export interface DetailColumn {
  name: string;
  help: string;
  of: DetailOf;
  /** Its field in the collection. */
  field: string;
  read: (cell: Cell) => Reading<string | number>;
}

const asText = (cell: Cell): string => (cell === null || isAmountCell(cell) ? '' : String(cell)).trim();
const readText = (cell: Cell): Reading<string> => {
  const text = asText(cell);
  return text.length > 2000 ? notUnderstood('the text has more than 2000 characters') : understood(text);
};
const readLength = (cell: Cell): Reading<number> => {
  const [, figures] = /^(\d{1,4}(?:[.,]\d{1,3})?)(?: ?mm)?$/.exec(asText(cell)) ?? [];
  const length = Number((figures ?? '').replace(',', '.'));
  return length > 0 ? understood(length) : notUnderstood(`"${asText(cell)}" is not a length in mm`);
};
const readBearings = (cell: Cell): Reading<string> => {
  const word = asText(cell).toLowerCase();
  return word === 'open' || word === 'captive'
    ? understood(word)
    : notUnderstood(`"${asText(cell)}" is neither open nor captive`);
};

const detail = (
  name: string,
  of: DetailOf,
  field: string,
  help: string,
  read: DetailColumn['read'] = readText,
): DetailColumn => ({ name, help, of, field, read });

/** The columns that fill what is still blank; nothing that is known already is changed by them. */
export const detailColumns: readonly DetailColumn[] = [
  detail('maker_country', 'maker', 'country', 'country of the maker'),
  detail('maker_notes', 'maker', 'notes', 'notes on the maker'),
  detail('series_first_year', 'series', 'first_year', 'first year of the series', readYear),
  detail('series_last_year', 'series', 'last_year', 'last year of the series', readYear),
  detail('series_notes', 'series', 'notes', 'notes on the series'),
  detail('body_type', 'casting', 'body_type', 'body of the casting, such as coupe or van'),
  detail('first_year', 'casting', 'first_year', 'year in which the casting was first sold', readYear),
  detail('length_mm', 'casting', 'length_mm', 'length of the casting in mm', readLength),
  detail('materials', 'casting', 'materials', 'what the casting is made of'),
  detail('markings', 'casting', 'markings', 'markings on the base'),
  detail('assembly', 'casting', 'assembly', 'how it is put together'),
  detail('bearings', 'casting', 'bearings', 'bearings of the axles: open or captive', readBearings),
  detail('casting_notes', 'casting', 'notes', 'notes on the casting'),
  detail('changed_part', 'release', 'changed_part', 'part that was changed for the release'),
  detail('release_notes', 'release', 'notes', 'notes on the release'),
  detail(
    'factory_specification',
    'variation',
    'factory_specification',
    'what a faithful restoration follows',
  ),
  detail('variation_notes', 'variation', 'notes', 'notes on the variation'),
  detail('base_words', 'variation', 'base_words', 'the base and its paint in words, such as "front third"'),
  detail('wheel_sizes', 'variation', 'wheel_sizes', 'sizes of the wheels, front and rear'),
];

/** Pieces such as "axles: 1.10 mm; wheels: 9.4 mm": what each is about, and what is said of it. */
const readPieces = <T>(
  cell: Cell,
  about: (name: string) => T | null,
  such: string,
): Reading<{ of: T; said: string }[]> => {
  const found: { of: T; said: string }[] = [];
  for (const piece of asText(cell).split(/[;\n]/)) {
    if (!piece.trim()) continue;
    const [, named = '', said = ''] = /^([^:]*):(.*)$/s.exec(piece) ?? [];
    const of = about(named.trim());
    if (of === null || !said.trim()) return notUnderstood(`"${piece.trim()}" does not read as ${such}`);
    found.push({ of, said: said.trim() });
  }
  return understood(found);
};

const partNamed = (name: string): PartName | null => {
  const parts = readParts(name);
  return parts.ok && parts.value.length === 1 ? (parts.value[0] ?? null) : null;
};

/** Parts of a casting with what is known of each: "axles: 1.10 mm; wheels: 9.4 mm". */
export const readPartDetails = (cell: Cell): Reading<{ part: PartName; detail: string }[]> => {
  const read = readPieces(cell, partNamed, 'a part and what is known of it, such as "axles: 1.10 mm"');
  return read.ok ? understood(read.value.map(({ of, said }) => ({ part: of, detail: said }))) : read;
};

/** Parts of a casting with what to look at: "roof: cracks at the post; axles: straight". */
export const readLookAt = (cell: Cell): Reading<{ part: PartName; lookAt: string }[]> => {
  const read = readPieces(cell, partNamed, 'a part and what to look at, such as "roof: cracks"');
  return read.ok ? understood(read.value.map(({ of, said }) => ({ part: of, lookAt: said }))) : read;
};

const featureNamed = (name: string): VariationFeature | null =>
  variationFeatures.find(
    feature => featureColumns[feature].replaceAll('_', ' ') === name.toLowerCase().replaceAll('_', ' '),
  ) ?? null;

/** Values that features of a casting can take: "wheels: spoked, solid; roof: black". */
export const readFeatureValues = (cell: Cell): Reading<{ feature: VariationFeature; value: string }[]> => {
  const read = readPieces(cell, featureNamed, 'a feature and its values, such as "wheels: spoked, solid"');
  return read.ok
    ? understood(
        read.value.flatMap(({ of, said }) =>
          said
            .split(',')
            .map(value => ({ feature: of, value: value.trim() }))
            .filter(({ value }) => value !== ''),
        ),
      )
    : read;
};

/** The swatch of a colour, as screens show it: "#2a8a86". */
export const readSwatch = (cell: Cell): Reading<string> => {
  const text = asText(cell).toLowerCase();
  const figures = /^#?([0-9a-f]{6})$/.exec(text)?.[1];
  return figures
    ? understood(`#${figures}`)
    : notUnderstood(`"${asText(cell)}" is not a swatch such as #2a8a86`);
};
