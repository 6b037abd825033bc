import {
  type DecidedWord,
  decidedWords,
  finishStates,
  gradeLabel,
  type Recommendation,
  rarities,
  recommendations,
} from '../../../../valuation/words.ts';
import { FinishState } from '../../../components/marks/finish-state.tsx';
import { RecommendationMark } from '../../../components/marks/recommendation-mark.tsx';
import { readerWords } from '../../../components/words.ts';
import { everything, type Filter, orList, writeFilter } from './filter.ts';
import classes from './sentence.module.css';
import { SentenceChoice } from './sentence-choice.tsx';

const decidedSays: Record<DecidedWord, string> = {
  undecided: 'not yet decided',
  decided: 'decided',
  otherwise: 'decided otherwise than recommended',
};

const belowGrades = [3, 4, 5, 6, 7, 8, 9].map(grade => ({
  value: String(grade),
  label: `below ${gradeLabel(grade)}`,
}));

/** The filter as a sentence, each of its words a choice. */
export const Sentence = ({
  filter,
  lots,
  onChange,
}: {
  filter: Filter;
  /** The lots that have cars to decide. */
  lots: readonly { id: number; name: string }[];
  onChange: (filter: Filter) => void;
}) => {
  const change = (part: Partial<Filter>) => onChange({ ...filter, ...part });
  const { lot, finish, below, not, recommendation, decided } = filter;
  const lotName = lots.find(({ id }) => id === lot)?.name;
  return (
    <p className={classes.sentence}>
      <span className="heard">Which cars are weighed: </span>
      Cars of{' '}
      <SentenceChoice
        label="Lot"
        says={lot === null ? 'any lot' : (lotName ?? 'a lot without cars')}
        anyWord="any lot"
        options={lots.map(({ id, name }) => ({ value: String(id), label: name }))}
        chosen={lot === null ? [] : [String(lot)]}
        onChange={([id]) => change({ lot: id === undefined ? null : Number(id) })}
      />
      , finish{' '}
      <SentenceChoice
        label="Finish"
        says={finish.length === 0 ? 'any' : orList(finish)}
        anyWord="any finish"
        many
        options={finishStates.map(state => ({ value: state, label: <FinishState state={state} /> }))}
        chosen={finish}
        onChange={states => change({ finish: finishStates.filter(state => states.includes(state)) })}
      />
      ,{' '}
      <SentenceChoice
        label="Grade"
        says={below === null ? 'any grade' : `below ${gradeLabel(below)}`}
        anyWord="any grade"
        options={belowGrades}
        chosen={below === null ? [] : [String(below)]}
        onChange={([grade]) => change({ below: grade === undefined ? null : Number(grade) })}
      />
      ,{' '}
      <SentenceChoice
        label="Rarity"
        says={not.length === 0 ? 'any rarity' : `not ${orList(not)}`}
        anyWord="any rarity"
        many
        options={rarities.map(rarity => ({ value: rarity, label: `not ${rarity}` }))}
        chosen={not}
        onChange={words => change({ not: rarities.filter(rarity => words.includes(rarity)) })}
      />
      ,{' '}
      <SentenceChoice
        label="Decision"
        says={decided === null ? 'decided or not' : decidedSays[decided]}
        anyWord="decided or not"
        options={decidedWords.map(word => ({
          value: word,
          label: decidedSays[word],
        }))}
        chosen={decided === null ? [] : [decided]}
        onChange={([word]) => change({ decided: word ?? null })}
      />
      , recommended{' '}
      <SentenceChoice<Recommendation>
        label="Recommendation"
        says={
          recommendation.length === 0 ? 'anything' : orList(recommendation.map(readerWords().recommendation))
        }
        anyWord="anything"
        many
        options={recommendations.map(word => ({
          value: word,
          label: <RecommendationMark recommendation={word} />,
        }))}
        chosen={recommendation}
        onChange={words => change({ recommendation: recommendations.filter(word => words.includes(word)) })}
      />
      .
      {writeFilter(filter) === '' ? null : (
        <button type="button" className={classes.all} onClick={() => onChange(everything)}>
          All cars
        </button>
      )}
    </p>
  );
};
