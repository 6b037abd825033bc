import type { CastingRow } from '../../../electron/api/views.ts';

export interface SeriesGroup {
  maker: string;
  series: string;
  castings: CastingRow[];
}

const fold = (text: string): string => text.normalize('NFD').replaceAll(/\p{M}/gu, '').toLowerCase();

/**
 * The castings that hold every typed word in their name, series or maker, by maker and series, each
 * in order of name.
 */
export const groupCastings = (castings: readonly CastingRow[], text: string): SeriesGroup[] => {
  const words = fold(text).split(/\s+/).filter(Boolean);
  const groups = new Map<number, SeriesGroup>();
  for (const casting of castings) {
    const all = fold(`${casting.name} ${casting.series} ${casting.maker} ${casting.bodyType}`);
    if (!words.every(word => all.includes(word))) continue;
    const group = groups.get(casting.seriesId) ?? {
      maker: casting.maker,
      series: casting.series,
      castings: [],
    };
    group.castings.push(casting);
    groups.set(casting.seriesId, group);
  }
  const compare = new Intl.Collator('en', { numeric: true }).compare;
  for (const group of groups.values()) group.castings.sort((a, b) => compare(a.name, b.name));
  return [...groups.values()].sort((a, b) => compare(a.maker, b.maker) || compare(a.series, b.series));
};
