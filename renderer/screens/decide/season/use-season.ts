import { useQueryClient } from '@tanstack/react-query';
import { useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { SeasonView } from '../../../../electron/api/views.ts';
import type { Currency, IsoDate } from '../../../../valuation/types.ts';
import { api } from '../../../api/client.ts';
import { errorSentence } from '../../../api/error-sentence.ts';
import { askOnlyAgain } from '../../../api/query-client.ts';
import { showProblem } from '../../../components/notices/undo-notice.tsx';
import { takeOldSeason } from './old-season.ts';
import { nextName, seasonFrom, seasonInput } from './saved-season.ts';
import { emptySeason, type Season } from './season.ts';
import type { SeasonCars } from './use-season-cars.ts';

/** By what the seasons are asked for. */
export const seasonsKey = ['seasons'];

/** What is to be saved next, while something is being saved. */
interface Waiting {
  about: { id: number | null; name: string; notes: string };
  season: Season;
}

/**
 * The collection's current season, and how to change it: a change is seen at once and saved at once, one
 * after the other; what changes while one is being saved is saved together. Without any season the first
 * change makes one.
 */
export const useSeason = (
  seasons: readonly SeasonView[],
  { known, know }: Pick<SeasonCars, 'known' | 'know'>,
  { currency, today, dir }: { currency: Currency; today: IsoDate; dir: string },
) => {
  const client = useQueryClient();
  const saved = seasons.find(({ current }) => current) ?? null;
  const [draft, setDraft] = useState<Season | null>(null);
  const shown = useMemo(
    () => draft ?? (saved ? seasonFrom(saved, currency) : emptySeason),
    [draft, saved, currency],
  );
  const latest = useRef({ shown, saved, seasons });
  latest.current = { ...latest.current, saved, seasons };
  if (draft === null) latest.current.shown = shown;
  const waiting = useRef<Waiting | null>(null);
  const saving = useRef(false);
  const made = useRef<number | null>(null);
  /** Shows what is saved, in place of what was changed. */
  const settle = useCallback(() => {
    made.current = null;
    setDraft(null);
  }, []);

  const save = useCallback(async () => {
    if (saving.current) return;
    saving.current = true;
    try {
      while (waiting.current) {
        const { about, season } = waiting.current;
        waiting.current = null;
        const whole = { ...about, id: about.id ?? made.current, currency };
        const input = seasonInput(season, whole, latest.current.saved, known.current);
        made.current = (await api.work.saveSeason(input)).id;
        await askOnlyAgain(client, 'seasons', 'history');
      }
      // What was asked again may be here and not yet be shown: until it is, what was changed stands.
      if (client.getQueryData(seasonsKey) === latest.current.seasons) settle();
    } catch (error) {
      waiting.current = null;
      settle();
      showProblem('The season could not be saved', errorSentence(error));
    } finally {
      saving.current = false;
    }
  }, [client, currency, known, settle]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: whenever other seasons are shown
  useLayoutEffect(() => {
    if (!saving.current) settle();
  }, [seasons, settle]);

  const change = useCallback(
    (how: (season: Season) => Season) => {
      const now = latest.current;
      const season = how(now.shown);
      now.shown = season;
      setDraft(season);
      waiting.current = {
        season,
        about: now.saved
          ? { id: now.saved.id, name: now.saved.name, notes: now.saved.notes }
          : {
              id: null,
              name: nextName(
                now.seasons.map(({ name }) => name),
                today.slice(0, 4),
              ),
              notes: '',
            },
      };
      void save();
    },
    [save, today],
  );

  const none = seasons.length === 0;
  useEffect(() => {
    const old = none ? takeOldSeason(dir) : null;
    if (old) void know([...old.standings.keys()]).then(() => change(() => old));
  }, [none, dir, change, know]);
  return { season: shown, saved, saving: draft !== null, change };
};
