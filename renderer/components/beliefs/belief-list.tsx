import { Button } from '@mantine/core';
import { useState } from 'react';
import type { BeliefView } from '../../../electron/api/views.ts';
import type { Currency } from '../../../valuation/types.ts';
import { sentenceCase } from '../../../valuation/wording/reader.ts';
import { beliefAbout, beliefHeldText, ownAsideText } from '../../../valuation/wording/values/belief-text.ts';
import { carGradeLabel } from '../../../valuation/words.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../actions/use-action.ts';
import { amountText, dateText, readerLocale } from '../format.ts';
import { readerWords } from '../words.ts';
import { BeliefForm, type BeliefSubject } from './belief-form.tsx';
import classes from './beliefs.module.css';

/** What the owner believes, each with what sales since say of it; changed and taken back in place. */
export const BeliefList = ({
  beliefs,
  subjects,
  reporting,
}: {
  beliefs: readonly BeliefView[];
  subjects: readonly BeliefSubject[];
  reporting: Currency;
}) => {
  const [editing, setEditing] = useState<number | null>(null);
  const remove = useAction((belief: BeliefView) => api.beliefs.remove({ id: belief.id }), {
    label: belief => `What ${belief.name} brings is taken back`,
  });
  const words = readerWords();
  return (
    <div className={classes.scroll}>
      <table className={classes.table}>
        <thead>
          <tr>
            <th scope="col">About</th>
            <th scope="col">Grade and finish</th>
            <th scope="col" className="amount">
              Brings
            </th>
            <th scope="col">Said on</th>
            <th scope="col">What sales say of it</th>
            <th scope="col">
              <span className="heard">Change or take back</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {beliefs.map(belief => {
            const name = beliefAbout(belief);
            if (editing === belief.id)
              return (
                <tr key={belief.id}>
                  <td colSpan={6} className={classes.edited}>
                    <BeliefForm
                      subjects={
                        subjects.some(one => one.level === belief.level && one.of === belief.of)
                          ? subjects
                          : [{ level: belief.level, of: belief.of, label: sentenceCase(name) }, ...subjects]
                      }
                      reporting={reporting}
                      belief={belief}
                      onDone={() => setEditing(null)}
                    />
                    <Button variant="subtle" onClick={() => setEditing(null)}>
                      Cancel
                    </Button>
                  </td>
                </tr>
              );
            return (
              <tr key={belief.id}>
                <th scope="row">
                  {sentenceCase(name)}
                  {belief.note ? <span className={classes.noted}>{belief.note}</span> : null}
                </th>
                <td>
                  {words.spell(carGradeLabel(belief.grade, belief.finishState))}
                  {belief.finishState === 'restored' || belief.finishState === 'customised'
                    ? ''
                    : `, ${words.spell(belief.finishState)}`}
                </td>
                <td className="amount">
                  {amountText(belief.low, belief.currency)} – {amountText(belief.high, belief.currency)}{' '}
                  {belief.currency === reporting ? null : belief.currency}
                </td>
                <td>{dateText(belief.believedOn)}</td>
                <td className={classes.held}>
                  {belief.aside ? (
                    <span className="caution">Not counted: {ownAsideText(belief.aside, readerLocale())}</span>
                  ) : belief.against ? (
                    beliefHeldText(belief.against)
                  ) : null}
                </td>
                <td className="amount">
                  <Button
                    variant="subtle"
                    size="compact-xs"
                    aria-label={`Change what ${name} brings`}
                    onClick={() => setEditing(belief.id)}
                  >
                    Change
                  </Button>
                  <Button
                    variant="subtle"
                    color="brick"
                    size="compact-xs"
                    aria-label={`Take back what ${name} brings`}
                    onClick={() => remove.mutate(belief)}
                  >
                    Take back
                  </Button>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
};
