import type { LotPage } from '../../../electron/api/views.ts';
import type { Currency, IsoDate, Minor } from '../../../valuation/types.ts';
import { type LotCostKind, lotCostKinds } from '../../../valuation/words.ts';

type Cost = LotPage['costs'][number];
export type CostKind = Exclude<LotCostKind, 'other'>;
/** Those that have a field of their own. */
export const costKinds = lotCostKinds.filter((kind): kind is CostKind => kind !== 'other');

/** What a form of a lot holds: the four usual costs each once, and any others with what they were for. */
export interface LotDraft {
  name: string;
  boughtOn: IsoDate | null;
  /** Not bought: no day and no costs, whatever stands in their fields. */
  seen: boolean;
  seller: string;
  currency: Currency;
  usual: Record<CostKind, Minor | null>;
  others: { note: string; minor: Minor | null }[];
  notes: string;
}

export const emptyDraft = (currency: Currency, boughtOn: IsoDate | null): LotDraft => ({
  name: '',
  boughtOn,
  seen: false,
  seller: '',
  currency,
  usual: { price: null, premium: null, tax: null, carriage: null },
  others: [],
  notes: '',
});

/** The draft of a lot as it stands; a second cost of one kind goes to the others, so that none is lost. */
export const draftOf = (lot: LotPage): LotDraft => {
  const draft: LotDraft = {
    ...emptyDraft(lot.currency, lot.boughtOn),
    name: lot.name,
    seen: lot.isSeen,
    seller: lot.seller,
    notes: lot.notes,
  };
  for (const { kind, minor, note } of lot.costs)
    if (kind !== 'other' && note === '' && draft.usual[kind] === null) draft.usual[kind] = minor;
    else draft.others.push({ note: note || (kind === 'other' ? '' : kind), minor });
  return draft;
};

export const draftCosts = (draft: LotDraft): Cost[] => [
  ...costKinds.flatMap((kind): Cost[] => {
    const minor = draft.usual[kind];
    return minor === null ? [] : [{ kind, minor, note: '' }];
  }),
  ...draft.others.flatMap(({ note, minor }): Cost[] =>
    minor === null ? [] : [{ kind: 'other', minor, note: note.trim() }],
  ),
];

export const draftTotal = (draft: LotDraft): Minor =>
  draftCosts(draft).reduce((sum, cost) => sum + cost.minor, 0);

/** What `lots.create`, `lots.update` and an import take. */
export const draftInput = (draft: LotDraft) => ({
  name: draft.name.trim(),
  boughtOn: draft.seen ? null : draft.boughtOn,
  seller: draft.seller.trim(),
  currency: draft.currency,
  costs: draft.seen ? [] : draftCosts(draft),
  notes: draft.notes,
});
