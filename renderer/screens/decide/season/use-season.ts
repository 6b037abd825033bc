import { useCallback, useEffect, useState } from 'react';
import { readSeason, writeSeason } from './keep-season.ts';
import type { Season } from './season.ts';

/** The season that is being planned for a collection, kept on this machine until it is changed. */
export const useSeason = (dir: string) => {
  const key = `playworn-season:${dir}`;
  const [season, setSeason] = useState<Season>(() => readSeason(localStorage.getItem(key)));
  useEffect(() => localStorage.setItem(key, writeSeason(season)), [key, season]);
  const change = useCallback((how: (season: Season) => Season) => setSeason(how), []);
  return { season, change };
};
