import { deviationKinds, deviationLabel, partNames, rarities } from '../../../../valuation/words.ts';
import { readerWords } from '../../../components/words.ts';
import classes from './assumptions.module.css';
import type { PartOfDraft } from './draft.ts';
import { CellFigure, FigureField } from './figure-field.tsx';
import { percent, times } from './figures.ts';

const losses = [
  ['missing', 'missing'],
  ['reproduction', 'reproduction'],
  ['periodReplacement', 'period replacement'],
] as const;

/** What a missing or replaced part takes from the price. */
export const PartLosses = ({ draft, set }: PartOfDraft) => (
  <>
    <table className={classes.cells}>
      <caption>Share of the price lost, %</caption>
      <thead>
        <tr>
          <th scope="col">Part</th>
          {losses.map(([key, word]) => (
            <th key={key} scope="col">
              {word}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {partNames
          .filter(part => part !== 'packaging')
          .map(part => (
            <tr key={part}>
              <th scope="row">{part}</th>
              {losses.map(([key, word]) => (
                <td key={key}>
                  <CellFigure
                    label={`${part} ${word}, percent lost`}
                    value={draft.partLoss[part][key]}
                    kind={percent}
                    onChange={value =>
                      set({
                        partLoss: { ...draft.partLoss, [part]: { ...draft.partLoss[part], [key]: value } },
                      })
                    }
                  />
                </td>
              ))}
            </tr>
          ))}
      </tbody>
    </table>
    <FigureField
      label="Original packaging as made adds, % of the price"
      value={draft.packagingGain ?? 0}
      kind={percent}
      onChange={packagingGain => set({ packagingGain })}
    />
  </>
);

/** What each departure from the factory specification takes from a restoration's worth. */
export const DeviationLosses = ({ draft, set }: PartOfDraft) => (
  <table className={classes.cells}>
    <caption>Share of a restored car’s value lost, %</caption>
    <thead>
      <tr>
        <th scope="col">Departure</th>
        <th scope="col">lost</th>
      </tr>
    </thead>
    <tbody>
      {deviationKinds.map(kind => (
        <tr key={kind}>
          <th scope="row">{readerWords().spell(deviationLabel(kind))}</th>
          <td>
            <CellFigure
              label={`${readerWords().spell(deviationLabel(kind))}, percent lost`}
              value={draft.deviationLoss[kind]}
              kind={percent}
              onChange={value => set({ deviationLoss: { ...draft.deviationLoss, [kind]: value } })}
            />
          </td>
        </tr>
      ))}
    </tbody>
  </table>
);

/** What a rarer variation brings against its casting, before any of its own sales is known. */
export const RarityFactors = ({ draft, set }: PartOfDraft) => (
  <div>
    {rarities.map(rarity => (
      <FigureField
        key={rarity}
        label={`${rarity === 'uncommon' ? 'An' : 'A'} ${rarity} variation`}
        value={draft.rarityFactors[rarity]}
        kind={times}
        onChange={value => set({ rarityFactors: { ...draft.rarityFactors, [rarity]: value } })}
      />
    ))}
  </div>
);
