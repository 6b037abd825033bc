import type { PartName } from '../../../valuation/words.ts';
import type { BodyType, CastingPlan } from './index.ts';

/** Bodies that have no roof of their own, and bodies without glazing. */
const roofless: BodyType[] = ['single-seater', 'bubble-top'];
const bare: BodyType[] = ['open rod'];

/** The parts that a casting is made of, with what a restorer measures. */
export const castingParts = (plan: CastingPlan): { part: PartName; detail: string }[] => {
  const big = plan.body === 'single-seater' || plan.body === 'dune car' || plan.body === 'open rod';
  const accessories = [
    ...new Set([...plan.accessories, ...plan.rereleases.flatMap(one => one.changes.accessories ?? [])]),
  ].filter(one => one !== '');
  const labelled =
    plan.rereleases.some(one => one.changedPart === 'accessory') || plan.body === 'single-seater';
  const parts: { part: PartName; detail: string }[] = [
    {
      part: 'body finish',
      detail: 'clear tinted lacquer over tumbled zinc alloy; enamel on the later releases',
    },
  ];
  if (!roofless.includes(plan.body))
    parts.push({
      part: 'roof',
      detail: plan.roofs.includes('open')
        ? 'open; top or canopy in plastic where fitted'
        : 'cast with the body; painted or textured over the lacquer where it does not match',
    });
  parts.push({
    part: 'base',
    detail:
      plan.year >= 1974
        ? 'black plastic, lettered, with bumpers; holds the tail insert'
        : 'zinc alloy, lettered, with bumpers; holds the tail insert',
  });
  if (!bare.includes(plan.body))
    parts.push({ part: 'glazing', detail: 'one piece, located by the front post' });
  parts.push(
    { part: 'interior', detail: 'one piece with seats and wheel, trapped by the base' },
    {
      part: 'wheels',
      detail: big
        ? 'plated plastic hubs; 9.8 mm front, 12.6 mm rear'
        : 'plated plastic hubs; 10.4 mm front, 11.2 mm rear',
    },
    { part: 'axles', detail: 'steel wire, 1.10 mm, free in a formed channel' },
  );
  if (accessories.length > 0)
    parts.push({
      part: 'accessory',
      detail: `${accessories.join(' or ')}; plastic, clipped and easily lost`,
    });
  if (labelled) parts.push({ part: 'labels', detail: 'paper, pre-cut, one sheet to a car' });
  parts.push({
    part: 'post and rivet closure',
    detail: 'two posts peened over the base; 1.27 mm pilot drill at the front, the rear post is short',
  });
  return parts;
};
