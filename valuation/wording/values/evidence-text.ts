import type { AdjustedRecord, Evidence, Help } from '../../types.ts';
import type { EvidenceKind } from '../../words.ts';
import { counted, moneyText } from '../reader.ts';
import { beliefSubject } from './belief-text.ts';

/** How much of a value is no sale record, and what it is; empty where all of it is. */
const kindsText = ({ kinds }: Evidence): string => {
  if (!kinds) return '';
  const { sale, purchase, lot, belief } = kinds.shares;
  const percent = (share: number) => Math.round(share * 100);
  const parts = [
    [purchase + lot, 'what the owner paid'] as const,
    [belief, 'what the owner believes'] as const,
  ]
    .filter(([share]) => percent(share) > 0)
    .map(([share, what]) => `${what} (${percent(share)} %)`);
  if (parts.length === 0) return '';
  const how = restsOnOwn({ kinds }) ? 'mainly' : 'in part';
  return `, ${how} ${parts.join(' and ')}${percent(sale) === 0 ? ', with no sale record' : ''}`;
};

/** True where a value rests mainly on what its owner paid or believes, and not on sale records. */
export const restsOnOwn = ({ kinds }: Pick<Evidence, 'kinds'>): boolean =>
  kinds !== undefined && kinds.shares.sale < 0.5;

/** On which of what its owner has already a value mainly rests; undefined where it rests on sale records. */
export const mainlyOwn = (evidence: Pick<Evidence, 'kinds'>): 'paid' | 'believed' | undefined => {
  if (!restsOnOwn(evidence) || !evidence.kinds) return undefined;
  const { purchase, lot, belief } = evidence.kinds.shares;
  return belief > purchase + lot ? 'believed' : 'paid';
};

/** What is said of a value that rests mainly on what its owner has already, in a word and in full. */
export const ownRestText = {
  paid: { word: 'paid', full: 'rests mainly on what you paid' },
  believed: { word: 'believed', full: 'rests mainly on what you believe' },
} as const;

/**
 * Of how many values it is said that they rest on what their owner has already; '' of none. `who` is its
 * owner.
 */
export const ownCountsText = (
  { paid, believed }: Record<'paid' | 'believed', number>,
  who: 'you' | 'the owner' = 'you',
): string => {
  const believe = who === 'you' ? 'you believe' : 'the owner believes';
  const rest = (count: number) => `${count} ${count === 1 ? 'rests' : 'rest'} mainly on`;
  if (paid > 0 && believed > 0) return `${rest(paid)} what ${who} paid, ${believed} on what ${believe}`;
  if (paid > 0) return `${rest(paid)} what ${who} paid`;
  return believed > 0 ? `${rest(believed)} what ${believe}` : '';
};

/**
 * How much of each kind of evidence counts, and how many values rest mainly on what their owner has already.
 */
export interface EvidenceCount {
  sales: number;
  /** Purchases that count, and those that do not. */
  purchases: number;
  purchasesAside: number;
  beliefs: number;
  valued: number;
  onOwn: Record<'paid' | 'believed', number>;
}

/** What counts as evidence now, as two sentences. */
export const evidenceCountText = ({
  sales,
  purchases,
  purchasesAside,
  beliefs,
  valued,
  onOwn,
}: EvidenceCount): string => {
  const aside =
    purchasesAside > 0 ? ` (${purchasesAside} more ${purchasesAside === 1 ? 'does' : 'do'} not)` : '';
  const counting = `Now ${counted(sales, 'sale record')}, ${counted(purchases, 'purchase')}${aside} and ${counted(beliefs, 'belief')} count.`;
  const own = ownCountsText(onOwn);
  const rest = own === '' ? 'none rests mainly on what you paid or believe' : own;
  return valued === 0 ? counting : `${counting} Of ${counted(valued, 'value')} ${rest}.`;
};

/**
 * What a value rests on, as a phrase without a full stop: "62 % this variation’s 4 sales, 38 % its casting’s
 * 31"; where other evidence stands beside sale records, "62 % this variation, 38 % its casting, mainly what
 * the owner paid (80 %)".
 */
export const evidenceText = (evidence: Evidence): string => {
  const { shares, sales, castingSales, seriesSales } = evidence;
  const own = kindsText(evidence);
  const parts: [number, string][] = [
    [shares.variation, own ? 'this variation' : `this variation’s ${counted(sales, 'sale')}`],
    [shares.casting, own ? 'its casting' : `its casting’s ${castingSales}`],
    [shares.series, own ? 'its series' : `its series’ ${seriesSales}`],
    [shares.everything, own ? 'all records' : 'all records together'],
  ];
  const list = parts
    .filter(([share]) => Math.round(share * 100) > 0)
    .map(([share, what]) => `${Math.round(share * 100)} % ${what}`)
    .join(', ');
  return `${list}${own}`;
};

/** What each kind of evidence is called. */
export const evidenceKindNames: Record<EvidenceKind, string> = {
  sale: 'sale record',
  purchase: 'bought singly',
  lot: 'share of a lot',
  belief: 'belief',
};

/** What a piece of evidence is that is no sale record, as a phrase without a full stop. */
export const ownEvidenceText = (
  {
    from,
    lot = '',
    believed,
    currency,
  }: Pick<AdjustedRecord, 'from' | 'currency'> & { lot?: string; believed?: { low: number; high: number } },
  locale: string,
): string => {
  const money = (minor: number) => `${moneyText(minor, { locale, currency })} ${currency}`;
  switch (from?.kind) {
    case undefined:
      return 'A sale record';
    case 'purchase':
      return `What was paid for this car alone, with all costs of buying (${lot})`;
    case 'lot':
      return `Its share, by what the cars are worth to each other, of ${money(from.total)} paid for ${counted(from.cars, 'car')} (${lot})`;
    case 'belief':
      return `What the owner believes: ${money(believed?.low ?? 0)} to ${money(believed?.high ?? 0)} for ${beliefSubject[from.level]}`;
  }
};

/** The doubtful records behind a value, as a sentence; null where there are none. */
export const doubtfulText = ({ doubtful }: Evidence): string | null => {
  if (doubtful.length === 0) return null;
  return doubtful.length === 1
    ? '1 record of its casting is doubtful and counts little.'
    : `${doubtful.length} records of its casting are doubtful and count little.`;
};

/** What a report says that a value rests on: the evidence, or that the figure is its owner's own. */
export const reportedEvidence = (evidence: Evidence, own: boolean): string =>
  own ? 'The owner’s own figure; there is not enough evidence for another.' : evidenceText(evidence);

/** What would let a car be valued, or valued more closely, as a sentence. */
export const helpText = (help: Help): string => {
  switch (help) {
    case 'identify':
      return 'Identify the casting: without it no sale record can be compared with this car.';
    case 'sale-records':
      return 'Add sales of this variation or of its casting; one or two of a known grade are often enough. Of other castings in its series it takes more.';
    case 'choose-variation':
      return 'Choose its variation, or the few that it can be: the range narrows at once.';
    case 'grade':
      return 'Grade the car: until then it is taken at the usual grade of ungraded cars, with a wide range.';
    case 'own-figure':
      return 'Or enter your own figure; it is then used, marked as yours.';
  }
};
