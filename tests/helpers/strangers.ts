import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { featureColumns } from '../../valuation/reading/feature-columns.ts';
import {
  type Lexicon,
  type LexiconCasting,
  makeLexicon,
  type OwnWord,
} from '../../valuation/reading/sale-line/lexicon.ts';
import { variationFeatures } from '../../valuation/words.ts';

const at = (name: string) => new URL(`../fixtures/strangers/${name}`, import.meta.url);
export const strangersFile = (name: string): string => readFileSync(at(name), 'utf8');

/** The strangers' reference, as lines are read against it. */
export const strangersLexicon = (ownWords: OwnWord[] = []): Lexicon => {
  const rows = Papa.parse<Record<string, string>>(strangersFile('reference.csv').trim(), {
    header: true,
  }).data;
  const castings = new Map<string, LexiconCasting>();
  for (const row of rows) {
    const known = castings.get(row.casting ?? '') ?? {
      id: castings.size + 1,
      name: row.casting ?? '',
      maker: row.maker ?? '',
      series: row.series ?? '',
      releases: [],
      features: {},
    };
    castings.set(known.name, known);
    if (!known.releases.some(release => release.name === row.release_name))
      known.releases.push({ name: row.release_name ?? '', year: Number(row.release_year) });
    for (const feature of variationFeatures) {
      const text = row[featureColumns[feature]] ?? '';
      const texts = known.features[feature] ?? [];
      if (text && !texts.includes(text)) known.features[feature] = [...texts, text];
    }
  }
  return makeLexicon([...castings.values()], ownWords);
};

export interface TruthLine {
  hand: number;
  text: string;
  truth: Record<string, string>;
}

/** The lines that others wrote, each with what is true of it. */
export const truthLines = (file = 'sale-lines.tsv'): TruthLine[] => {
  const lines: TruthLine[] = [];
  let hand = 0;
  for (const row of strangersFile(file).split('\n').slice(1)) {
    if (row.startsWith('#')) hand++;
    // The truth stands behind the last tab; a line may have tabs of its own.
    const [, text, said] = /^(.*)\t(.*)$/.exec(row) ?? [];
    if (row.startsWith('#') || !text || !said) continue;
    const truth = Object.fromEntries(said.split(';').map(pair => pair.trim().split('=') as [string, string]));
    lines.push({ hand, text, truth });
  }
  return lines;
};
