import type { IsoDate, Range } from '../../../valuation/types.ts';
import { dayText, moneyText } from '../../../valuation/wording/reader.ts';
import type { FinishState, Grade } from '../../../valuation/words.ts';
import {
  carName,
  conditionText,
  footerText,
  identityFacts,
  partsTable,
  rangeText,
  statementText,
} from '../car-facts.ts';
import type { PaperDocument } from '../document.ts';
import type { DossierFacts, Edition } from './dossier.ts';

/**
 * What happened to a car, and what it was worth the moment before and is after, on one day and by one market.
 */
export interface ClaimFacts {
  car: DossierFacts;
  /** False where no event is recorded: then it is what a condition check found. */
  isEvent: boolean;
  /** The day of the event, else that of the condition check. */
  on: IsoDate;
  /** What the owner wrote of it. */
  cause: string;
  /** Null where no condition from before the event is recorded. */
  before: {
    /** Null where the grade was noted with the event, without a check of its own. */
    checkedOn: IsoDate | null;
    grade: Grade | null;
    finishState: FinishState;
    worth: Range | null;
  } | null;
  after: { grade: Grade | null; finishState: FinishState; worth: Range | null };
}

/** A sheet for an insurer: the event, the condition and the value before and after it. */
export const claimDocument = (
  { car, isEvent, on, cause, before, after }: ClaimFacts,
  edition: Edition,
): PaperDocument => {
  const { reader } = edition;
  const loss = before?.worth && after.worth ? before.worth.mid - after.worth.mid : null;
  return {
    title: `Claim sheet, ${car.inventoryNumber}`,
    subtitle: `${carName(car)}, ${conditionText(car, reader.locale)}`,
    author: edition.owner,
    footer: footerText,
    paper: edition.paper,
    blocks: [
      { kind: 'paragraph', tone: 'statement', text: statementText(car, reader.locale) },
      { kind: 'heading', level: 2, text: isEvent ? 'What happened' : 'What was found' },
      {
        kind: 'paragraph',
        text: cause || 'The owner has written nothing of it with the condition check.',
      },
      ...(isEvent
        ? []
        : [
            {
              kind: 'paragraph' as const,
              tone: 'quiet' as const,
              text: 'No event is recorded for this car: this is what its newest condition check says.',
            },
          ]),
      {
        kind: 'facts',
        facts: [
          { label: isEvent ? 'Happened on' : 'Found on', value: dayText(on, reader.locale) },
          {
            label: 'Condition before',
            value: before
              ? `${conditionText(before, reader.locale)} (${before.checkedOn ? `checked ${dayText(before.checkedOn, reader.locale)}` : 'as noted with the event'})`
              : `not recorded: there is no condition check from before ${isEvent ? 'the event' : 'that'}`,
          },
          { label: 'Condition after', value: conditionText(after, reader.locale) },
          { label: 'Value before', value: before ? rangeText(before.worth, reader) : 'not known' },
          { label: 'Value after', value: rangeText(after.worth, reader) },
          {
            label: 'Loss of value',
            value:
              loss === null
                ? before
                  ? 'not known: there is not enough evidence for both values'
                  : 'not known: nothing tells its condition before'
                : loss <= 0
                  ? 'none by these figures'
                  : `${reader.currency} ${moneyText(loss, reader)}, the difference of the middle figures`,
          },
        ],
      },
      {
        kind: 'paragraph',
        tone: 'quiet',
        text: `${before ? 'Both values are' : 'The value is'} for ${dayText(edition.on, reader.locale)}${before ? ', from the same sale records, so that only the condition differs between them' : ''}.`,
      },
      { kind: 'photos', columns: 2, photos: car.photos.slice(0, 6) },
      { kind: 'heading', level: 2, text: 'The car' },
      { kind: 'facts', facts: identityFacts(car, reader.locale) },
      ...(car.parts.length > 0 ? [partsTable(car.parts, reader.locale)] : []),
    ],
  };
};
