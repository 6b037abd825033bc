import { Section } from '../../components/layout/section.tsx';
import classes from './method.module.css';

const limits: [string, string][] = [
  [
    'One in five falls outside.',
    'The range holds four sales in five, not all. A single price outside it proves nothing; many do, and Settings counts them.',
  ],
  [
    'It knows only what you record.',
    'Sales that are seen tend to be the better and the dearer ones. If your records lean one way, so do the worths.',
  ],
  [
    'A grade is a judgement.',
    'A point of grade can move a worth by a quarter or more. The same eye should grade the cars and the sales.',
  ],
  [
    'Some things it does not see.',
    'A box, a story, a well-known former owner, a crowd at one sale: say so in the notes, and enter your own figure if you must.',
  ],
  [
    'A market that moves is followed late.',
    'Without an index, old prices only fade. Where prices rise or fall steadily and you have records enough, choose the trend.',
  ],
  [
    'Worth is before selling costs, and not all of it is money.',
    'The advice counts money alone. Whether an evening at the bench is a cost or a pleasure is yours to say.',
  ],
  [
    'A report is an owner’s inventory, not an appraisal.',
    'It says on what basis of value and as of which day, and how the figures were come by. An insurer or a court may ask for an appraiser’s own opinion.',
  ],
];

/** What the estimates cannot do, said plainly. */
export const Limits = () => (
  <Section id="limits" title="Limits">
    <dl className={classes.limits}>
      {limits.map(([name, text]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{text}</dd>
        </div>
      ))}
    </dl>
  </Section>
);
