import { readSetting } from '../../../db/records/collection/settings.ts';
import { listLots, lotCosts } from '../../../db/records/lots/lots.ts';
import { waitingWords } from '../../../db/records/own-words/waiting-words.ts';
import { waitingList } from '../names/waiting.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { FirstStep, FirstSteps } from '../views.ts';
import { namedAnswers } from './answers.ts';

const setting = 'first-steps-dismissed';

/** The kinds of steps that the owner has put away. */
export const readDismissed = async (session: Session): Promise<string[]> =>
  ((await readSetting(openOf(session).read.db, setting)) ?? '').split(',').filter(Boolean);

export const dismissedSetting = (kinds: string[]) => [setting, [...new Set(kinds)].sort().join(',')] as const;

export interface KnownOfCars {
  /** How many cars the owner has. */
  cars: number;
  /** Those of them without a value. */
  valueless: number[];
  /** How many of them lie in each lot. */
  inLots: ReadonlyMap<number | null, number>;
  /** For how many of them work is recommended and nothing was decided. */
  pays: number;
  /** How many cars something was decided for, sold ones counted. */
  decided: number;
  saleRecords: number;
}

/**
 * Whether a collection has left its first steps behind: something was decided, and most cars, or as many as
 * twenty, have a value.
 */
const isGrown = ({ cars, valueless, decided }: KnownOfCars): boolean => {
  const valued = cars - valueless.length;
  return decided > 0 && (valued >= 20 || valued >= 0.8 * cars);
};

const unpricedLots = async (session: Session, inLots: KnownOfCars['inLots']) => {
  const { db } = openOf(session).read;
  const costs = await lotCosts(db);
  const lots = (await listLots(db)).filter(({ id }) => inLots.has(id) && !costs.get(id)?.length);
  return { lots: lots.length, cars: lots.reduce((sum, { id }) => sum + (inLots.get(id) ?? 0), 0) };
};

const stepsOf = async (session: Session, known: KnownOfCars): Promise<(FirstStep & { done: boolean })[]> => {
  const { cars, valueless, inLots, pays, decided, saleRecords } = known;
  const { db } = openOf(session).read;
  const { names, valuedTogether } = await waitingList(session);
  const telling = names.filter(({ valued }) => valued > 0);
  const sum = (of: readonly { cars: number }[]) => of.reduce((all, one) => all + one.cars, 0);
  const words = await waitingWords(db);
  const valued = cars - valueless.length;
  const answers = await namedAnswers(session, valueless);
  return [
    { kind: 'cars', cars, done: cars > 0 },
    {
      kind: 'names',
      names: names.length,
      cars: sum(names),
      sales: names.reduce((all, { sales }) => all + sales, 0),
      telling: { names: telling.length, cars: telling.reduce((all, one) => all + one.valued, 0) },
      together: valuedTogether,
      done: names.length === 0 && cars > 0,
    },
    {
      kind: 'words',
      words: words.length,
      cars: new Set(words.flatMap(({ carIds }) => carIds)).size,
      sales: new Set(words.flatMap(({ saleIds }) => saleIds)).size,
      done: words.length === 0 && cars > 0,
    },
    {
      kind: 'prices',
      valued,
      cars,
      unpriced: await unpricedLots(session, inLots),
      saleRecords,
      best: answers.find(({ kind, cars: helped }) => kind !== 'name' && helped > 0) ?? null,
      done: cars > 0 && valued === cars,
    },
    { kind: 'decide', pays, valued, decided, done: decided > 0 },
  ];
};

/**
 * The first steps of a young collection; null once it has left them behind, or its owner has put all
 * that are open away.
 */
export const firstSteps = async (session: Session, known: KnownOfCars): Promise<FirstSteps | null> => {
  if (isGrown(known)) return null;
  const dismissed = await readDismissed(session);
  const steps = (await stepsOf(session, known)).map(step => ({
    ...step,
    dismissed: dismissed.includes(step.kind),
  }));
  return steps.every(step => step.done || step.dismissed) ? null : { steps };
};
