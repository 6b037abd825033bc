import { type Grade, gradeLabel } from '../../words.ts';
import type { HelpfulAnswer } from '../../worth/helpful-answers.ts';
import { counted } from '../reader.ts';

/** What the engine's answer is about, by name; a series that nobody has given has none. */
export type NamedAnswer = HelpfulAnswer & { casting: string | null; series: string | null };

const about = (grade: Grade): string => `about ${gradeLabel(grade)}`;

const gain = (cars: number): string => counted(cars, 'car gets a value', 'cars get a value');

/** An answer of the owner's that would help, and what it gives, as a sentence. */
export const helpfulText = (answer: NamedAnswer): string => {
  switch (answer.kind) {
    case 'belief':
      return `Say what a common ${answer.series ?? 'car of yours'} in ${about(answer.grade)} brings: ${gain(answer.cars)}.`;
    case 'sales':
      return `Add ${counted(answer.sales, 'recent sale', 'recent sales')} of ${answer.casting ?? 'a casting'} in ${about(answer.grade)}: ${gain(answer.cars)}.`;
    case 'name':
      return answer.cars > 0
        ? `Settle the name “${answer.name}”: ${gain(answer.cars)}.`
        : `Settle the name “${answer.name}”: ${counted(answer.waiting, 'car can then be compared with sales', 'cars can then be compared with sales')}.`;
  }
};
