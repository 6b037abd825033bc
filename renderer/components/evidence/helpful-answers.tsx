import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import type { NamedAnswer } from '../../../electron/api/views.ts';
import { helpfulText } from '../../../valuation/wording/values/helpful-text.ts';
import { api } from '../../api/client.ts';

/** Where an answer is given; a belief is asked for with its series and grade. */
export const placeOf = (answer: NamedAnswer): string => {
  switch (answer.kind) {
    case 'name':
      return '/reference/names';
    case 'belief':
      return `/settings?part=beliefs&series=${answer.seriesId}&grade=${answer.grade}`;
    case 'sales':
      return '/sales/paste';
  }
};

const useAnswers = () =>
  useQuery({ queryKey: ['helpful answers'], queryFn: () => api.young.answers() }).data ?? [];

const Answer = ({ answer }: { answer: NamedAnswer }) => (
  <Link href={`~${placeOf(answer)}`}>{helpfulText(answer)}</Link>
);

/** The answers that would give the most cars a value, each leading to where it is given. */
export const HelpfulAnswers = ({ most = 5 }: { most?: number }) => {
  const answers = useAnswers();
  return answers.length === 0 ? null : (
    <ul aria-label="Answers that would help">
      {answers.slice(0, most).map(answer => (
        <li key={helpfulText(answer)}>
          <Answer answer={answer} />
        </li>
      ))}
    </ul>
  );
};

/** The one answer that would help the most, in a line; nothing where every car has a value. */
export const MostHelpful = () => {
  const [best] = useAnswers();
  return best ? (
    <span>
      What would help the most: <Answer answer={best} />
    </span>
  ) : null;
};
