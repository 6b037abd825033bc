import { Section } from '../../components/layout/section.tsx';
import classes from './method.module.css';

const limits: [string, string][] = [
  [
    'One in five falls outside.',
    'The range should hold 80 % of sales, not all. A single price outside it proves nothing; many would, and Settings counts them.',
  ],
  [
    'It knows only what you record.',
    'The sales you see tend to be of better and more expensive cars. If your records lean one way, so do the values.',
  ],
  [
    'A grade is an opinion.',
    'One point of grade can change a value by a quarter or more. The same eye should grade the cars and the sales.',
  ],
  [
    'Some things it does not see.',
    'A box, a story, a well-known former owner, a crowd at one sale: say so in the notes, and enter your own figure if you must.',
  ],
  [
    'A market that moves is followed late.',
    'How prices move is read from your own records, from 40 of them over 3 years on. With fewer, old prices only fade.',
  ],
  [
    'Values are before selling costs, and money is not everything.',
    'The advice counts money alone. Whether an evening at the workbench is a cost or a pleasure is for you to say.',
  ],
  [
    'A report is an owner’s inventory, not an appraisal.',
    'It states the basis of value, the date and how the figures were found. An insurer or a court may ask for an appraiser’s own opinion.',
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
