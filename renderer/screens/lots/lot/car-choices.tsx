import type { QueryClient } from '@tanstack/react-query';
import type { CarRow } from '../../../../electron/api/views.ts';
import { basePaints, finishStates } from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import { type Choice, filterChoices } from '../../../components/inputs/choices.ts';
import { LacquerChip } from '../../../components/lacquer-chip/lacquer-chip.tsx';
import { readerWords } from '../../../components/words.ts';

type Search = (text: string) => Promise<readonly Choice[]>;

export const basePaintChoices: readonly Choice[] = basePaints.map(word => ({ value: word, label: word }));
export const finishStateChoices = (): readonly Choice[] =>
  finishStates.map(word => ({ value: word, label: readerWords().spell(word) }));

/** Castings, and variations once enough is typed to tell one: "lark em" finds the Larkhythe in Ember. */
export const suggestCastings: Search = async text =>
  (await api.reference.suggest({ text })).map(found => ({
    value: found.kind === 'variation' ? `variation:${found.variationId}` : `casting:${found.castingId}`,
    label: found.label,
    detail: found.detail,
    ...(found.kind === 'variation' && {
      mark: <LacquerChip name="" swatch={found.swatch} basePaint={found.basePaint} nameless />,
    }),
  }));

/**
 * Searches that depend on a row's casting; its page is asked for once and kept until something is written.
 */
export const choicesByCasting = (client: QueryClient) => {
  const casting = (id: number) =>
    client.fetchQuery({
      queryKey: ['casting choices', id],
      queryFn: () => api.reference.casting({ id }),
      staleTime: 60_000,
    });
  const colours = () =>
    client.fetchQuery({
      queryKey: ['colour choices'],
      queryFn: () => api.reference.colours(),
      staleTime: 60_000,
    });
  const chip = (name: string, swatch: string | null): Choice => ({
    value: name,
    label: name,
    mark: <LacquerChip name="" swatch={swatch} nameless />,
  });
  return {
    colour:
      (row: CarRow | null): Search =>
      async text => {
        const known = await colours();
        if (row?.castingId === null || row === null)
          return filterChoices(
            known.map(({ name, swatch }) => chip(name, swatch)),
            text,
          );
        const page = await casting(row.castingId);
        const names = page.featureValues.find(entry => entry.feature === 'colour')?.values ?? [];
        const swatches = new Map(known.map(({ name, swatch }) => [name, swatch]));
        return filterChoices(
          names.map(name => chip(name, swatches.get(name) ?? null)),
          text,
        );
      },
    rearEnd:
      (row: CarRow | null): Search =>
      async text => {
        if (!row?.castingId) return [];
        const page = await casting(row.castingId);
        const values = page.featureValues.find(entry => entry.feature === 'rearEnd')?.values ?? [];
        return filterChoices(
          values.map(value => ({ value, label: value })),
          text,
        );
      },
    release:
      (row: CarRow | null): Search =>
      async text => {
        if (!row?.castingId) return [];
        const page = await casting(row.castingId);
        return filterChoices(
          page.releaseRows.map(({ name, year, changedPart }) => ({
            value: name,
            label: name,
            detail: [year, changedPart].filter(Boolean).join(' · '),
          })),
          text,
        );
      },
  };
};
