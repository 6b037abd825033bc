import type { Decision } from '../../../valuation/types.ts';
import { disclosureText } from '../../../valuation/wording/cars/disclosure-text.ts';
import { spell } from '../../../valuation/wording/dialect.ts';
import {
  counted,
  dayText,
  moneyText,
  numberText,
  percentText,
  type Reader,
  sentenceCase,
  signedText,
} from '../../../valuation/wording/reader.ts';
import { optionWords, recommendationWord } from '../../../valuation/wording/values/option-words.ts';
import { reasonText } from '../../../valuation/wording/values/reason-text.ts';
import { cautionLine } from '../../../valuation/wording/work/cautions.ts';
import type { Option } from '../../../valuation/words.ts';
import { type CarFacts, carName, conditionText, footerText } from '../car-facts.ts';
import type { DocumentBlock, PaperDocument } from '../document.ts';
import type { Edition } from './dossier.ts';

export interface WorksheetCar
  extends Pick<
    CarFacts,
    'inventoryNumber' | 'casting' | 'releaseName' | 'asWritten' | 'grade' | 'finishState' | 'disclosure'
  > {
  decision: Decision;
  recorded: { choice: Option; decidedOn: string; reason: string } | null;
}

const optionRows = ({ options }: Decision, reader: Reader): string[][] =>
  options
    .filter(({ option }) => option !== 'leave')
    .map(({ option, cost, worth, expectedGain, gain, probability, hours, gainPerHour }) => [
      optionWords(option, reader.locale).name,
      moneyText(cost.mid, reader),
      hours > 0 ? numberText(hours, 1, reader.locale) : '',
      moneyText(worth.mid, reader),
      signedText(expectedGain, reader),
      `${signedText(gain.low, reader)} to ${signedText(gain.high, reader)}`,
      gainPerHour === null ? '' : signedText(gainPerHour, reader),
      percentText(probability),
    ]);

const carBlocks = ({ decision, recorded, ...car }: WorksheetCar, reader: Reader): DocumentBlock[] => {
  const disclosed = disclosureText(car.disclosure, reader.locale);
  return [
    {
      kind: 'heading',
      level: 2,
      text: `${car.inventoryNumber}  ${carName(car)}, ${conditionText(car, reader.locale)}`,
    },
    ...(disclosed ? [{ kind: 'paragraph' as const, tone: 'statement' as const, text: disclosed }] : []),
    {
      kind: 'paragraph',
      text: [
        `${sentenceCase(recommendationWord(decision.recommendation, reader.locale))}.`,
        ...decision.reasons.map(reason => reasonText(reason, reader)),
      ].join(' '),
    },
    ...(decision.options.length > 1
      ? [
          {
            kind: 'table' as const,
            columns: [
              { title: 'Option' },
              ...[
                'Cost',
                'Hours',
                'Value after',
                'Gain',
                '80 % range of the gain',
                'Gain per hour',
                'Beats leaving',
              ].map(title => ({ title, align: 'right' as const })),
            ],
            rows: optionRows(decision, reader),
          },
        ]
      : []),
    {
      kind: 'paragraph',
      tone: 'quiet',
      text: recorded
        ? spell(
            `Decided on ${dayText(recorded.decidedOn, reader.locale)}: ${optionWords(recorded.choice, reader.locale).name}. ${recorded.reason}`,
            reader.locale,
          )
        : 'Not decided yet.',
    },
  ];
};

/**
 * Why each car is to be left or restored, with what each option costs and brings, and where
 * restoring begins to pay.
 */
export const worksheetDocument = (cars: WorksheetCar[], edition: Edition): PaperDocument => {
  const { reader } = edition;
  const work = cars.filter(({ decision }) => !/^(leave|not-enough-evidence)$/.test(decision.recommendation));
  return {
    title: 'Decision worksheet',
    subtitle: `${counted(cars.length, 'car')}, ${dayText(edition.on, reader.locale)}, amounts in ${reader.currency}`,
    author: edition.owner,
    footer: footerText,
    paper: edition.paper,
    blocks: [
      {
        kind: 'paragraph',
        text: `Work is recommended for ${counted(work.length, 'car')}. A gain is what a car brings after the work, less the work and less what it would bring if it were left.`,
      },
      ...(work.length > 0
        ? [{ kind: 'paragraph' as const, tone: 'caution' as const, text: spell(cautionLine, reader.locale) }]
        : []),
      ...cars.flatMap(car => carBlocks(car, reader)),
    ],
  };
};
