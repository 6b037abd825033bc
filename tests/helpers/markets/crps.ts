import { normalCdf } from '../../../valuation/statistics/normal.ts';

const density = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

/**
 * Continuous ranked probability score of a normal forecast against what came; in its unit, lower is better.
 * Source: Gneiting & Raftery (2007), JASA 102, eq. 21.
 */
export const crpsOfNormal = (mean: number, sd: number, came: number): number => {
  if (sd === 0) return Math.abs(came - mean);
  const z = (came - mean) / sd;
  return sd * (z * (2 * normalCdf(z) - 1) + 2 * density(z) - 1 / Math.sqrt(Math.PI));
};

/**
 * The same of a lognormal forecast, given by the mean and deviation of its log. Source: Baran & Lerch (2015),
 * QJRMS 141, appendix.
 */
export const crpsOfLognormal = (mean: number, sd: number, came: number): number => {
  const w = (Math.log(came) - mean) / sd;
  return (
    came * (2 * normalCdf(w) - 1) -
    2 * Math.exp(mean + (sd * sd) / 2) * (normalCdf(w - sd) + normalCdf(sd / Math.SQRT2) - 1)
  );
};
