import type { AssumptionSet } from '../../../../valuation/types.ts';
import { type FinishState, finishStates } from '../../../../valuation/words.ts';
import { readerWords } from '../../../components/words.ts';
import classes from './assumptions.module.css';
import { type PartOfDraft, withGrade } from './draft.ts';
import { CellFigure } from './figure-field.tsx';
import { percent } from './figures.ts';
import { GradeCurve } from './grade-curve.tsx';

const gradesDown = [10, 9, 8, 7, 6, 5, 4, 3, 2, 1];
const ofGrade = { ...percent, least: 0.1 };

/** What a grade and a finish are assumed to do to the price. */
export const Grades = ({ draft, set }: PartOfDraft) => {
  const setGrade = (state: FinishState, grade: number, value: number) =>
    set({
      gradeMultipliers: {
        ...draft.gradeMultipliers,
        [state]: withGrade(draft.gradeMultipliers[state], grade, value),
      },
    });
  const setFactor = (state: FinishState, value: number) =>
    set({ finishFactors: { ...draft.finishFactors, [state]: value } });
  return (
    <div className={classes.grades}>
      <div>
        <GradeCurve assumptions={draft satisfies AssumptionSet} />
        <p className={classes.note}>
          For example, a C6 in original finish sells for{' '}
          {Math.round(100 * (draft.gradeMultipliers.original[5] ?? 0))} % of a C10; a restored C9{' '}
          {Math.round(100 * (draft.gradeMultipliers.restored[8] ?? 0) * draft.finishFactors.restored)} % of an
          original C10. Half grades are midway. Your sale records adjust these curves as they build up.
        </p>
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by keyboard */}
      <section className={classes.wide} aria-label="What grade and finish do to the price" tabIndex={0}>
        <table className={classes.cells}>
          <caption>In % of the same finish as made (C10); in the top row, of original finish</caption>
          <thead>
            <tr>
              <th scope="col">Grade</th>
              {finishStates.map(state => (
                <th key={state} scope="col">
                  {readerWords().spell(state)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            <tr className={classes.factors}>
              <th scope="row">against original</th>
              {finishStates.map(state => (
                <td key={state}>
                  {state === 'original' ? (
                    <span className={classes.fixed}>100</span>
                  ) : (
                    <CellFigure
                      label={`${readerWords().spell(state)} against original finish, percent`}
                      value={draft.finishFactors[state]}
                      kind={{ ...ofGrade, most: 1000 }}
                      onChange={value => setFactor(state, value)}
                    />
                  )}
                </td>
              ))}
            </tr>
            {gradesDown.map(grade => (
              <tr key={grade}>
                <th scope="row">C{grade}</th>
                {finishStates.map(state => (
                  <td key={state}>
                    {grade === 10 ? (
                      <span className={classes.fixed}>100</span>
                    ) : (
                      <CellFigure
                        label={`${readerWords().spell(state)}, C${grade}, percent of C10`}
                        value={draft.gradeMultipliers[state][grade - 1] ?? 0}
                        kind={ofGrade}
                        onChange={value => setGrade(state, grade, value)}
                      />
                    )}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </div>
  );
};
