import type { Belief, OwnAsideCause } from '../../types.ts';
import type { BeliefLevel } from '../../words.ts';
import type { Diagnostics } from '../../worth/diagnostics.ts';
import { counted, percentText } from '../reader.ts';
import { asideText } from './record-text.ts';

/** What a belief about each level is about. */
export const beliefSubject: Record<BeliefLevel, string> = {
  series: 'a common car of the series',
  casting: 'a common car of the casting',
  variation: 'a car of the variation',
};

/** What a belief is about, by name: "a common car of the series Slipwinds". */
export const beliefAbout = ({ level, name }: Pick<Belief, 'level'> & { name: string }): string =>
  level === 'variation' ? name : `a common ${level === 'series' ? `car of the series ${name}` : name}`;

/** Why what was paid, or what is believed, does not count, without a full stop. */
export const ownAsideText = (cause: OwnAsideCause, locale: string): string => {
  switch (cause.kind) {
    case 'left-out':
      return 'You have left it out';
    case 'entered-as-sale':
      return 'It is also a sale record, and counts as that';
    case 'unidentified-cars':
      return cause.cars === 0
        ? 'It has no cars'
        : `${counted(cause.cars, 'car of it is', 'cars of it are')} not identified`;
    case 'changed-cars':
      return `${counted(cause.cars, 'car of it has', 'cars of it have')} had work done, and no check from the time of buying says how it was then`;
    case 'open-finish':
      return `${counted(cause.cars, 'car of it has', 'cars of it have')} a finish that is not settled`;
    case 'unknown-series':
      return 'Its series is not in the reference';
    case 'after-effective-date':
      return 'It is dated after the effective date';
    default:
      return asideText(cause, locale);
  }
};

/** What sales since say of a belief, without a full stop. */
export const beliefHeldText = ({
  count,
  bias,
  verdict,
}: Pick<Diagnostics, 'count' | 'bias' | 'verdict'>): string => {
  if (count === 0 || bias === null) return 'No sale since';
  const typically = `typically ${percentText(Math.abs(bias))} ${bias >= 0 ? 'above' : 'below'} its middle`;
  const sales = `${counted(count, 'sale')} since, ${typically}`;
  switch (verdict.kind) {
    case 'none-sold':
    case 'too-few':
      return `${sales}: too few to judge it by`;
    case 'nothing-against':
      return `${sales}, which is within chance`;
    case 'wrong':
      return `${sales}: the sales say otherwise, and overrule it`;
  }
};
