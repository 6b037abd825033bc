import type { EstimateFault, Verdict } from '../../worth/diagnostics.ts';
import { counted, percentText } from '../reader.ts';

const size = (share: number) => percentText(Math.abs(share));

const faultText = (fault: EstimateFault): string => {
  switch (fault.kind) {
    case 'bias':
      return `cars typically brought ${size(fault.bias)} ${fault.bias > 0 ? 'more' : 'less'} than they were valued at`;
    case 'ranges-too-narrow':
      return `only ${size(fault.coverage)} of the prices fell inside their range where 80 % should: the ranges are too narrow`;
    case 'ranges-too-wide':
      return `${size(fault.coverage)} of the prices fell inside their range where 80 % should: the ranges are too wide`;
  }
};

/** What the owner's sales say of the estimates, in plain words. */
export const verdictText = (verdict: Verdict): string => {
  switch (verdict.kind) {
    case 'none-sold':
      return 'No valued car has been sold yet: nothing can be said of the estimates.';
    case 'too-few':
      return `Only ${verdict.count} of the cars sold ${verdict.count === 1 ? 'was' : 'were'} valued before: too few to judge the estimates by.`;
    case 'nothing-against': {
      const { count, bias, coverage } = verdict;
      return `Over ${counted(count, 'sale')}, nothing speaks against the estimates: typically ${size(bias)} ${bias >= 0 ? 'above' : 'below'} the middle figure, which is within chance, and ${size(coverage)} inside their range.`;
    }
    case 'wrong':
      return `The estimates have been wrong. Over ${counted(verdict.count, 'sale')}, ${verdict.faults.map(faultText).join('; and ')}.`;
  }
};
