import { describe, expect, it } from 'vitest';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import {
  cautionLine,
  cautions,
  generalCautions,
  type Hazard,
  hazards,
  hazardsIn,
  hazardsOf,
} from '../../../valuation/wording/work/cautions.ts';
import { workKinds } from '../../../valuation/words.ts';
import { startingSteps } from '../../../valuation/work/steps/index.ts';
import { cautionsSection, readmeParts } from '../../helpers/readme-cautions.ts';

describe('the hazards in the words of a piece of work', () => {
  const table: [text: string, ...expected: Hazard[]][] = [
    ['Stripping bath and neutraliser, share', 'acid', 'caustic', 'lead', 'strippers', 'solvents', 'waste'],
    ['caustic soda', 'caustic'],
    ['lye bath', 'caustic'],
    ['oven cleaner', 'caustic'],
    ['bleach', 'acid'],
    ['muriatic', 'acid'],
    ['Weak acid bath', 'acid'],
    ['vinegar', 'acid'],
    ['rust remover', 'acid'],
    ['dipping', 'acid'],
    ['Dip it for an hour', 'acid'],
    ['brake fluid', 'solvents'],
    ['isopropyl alcohol', 'solvents'],
    ['xylene', 'solvents'],
    ['naphtha', 'solvents'],
    ['toluene', 'solvents'],
    ['MEK', 'solvents'],
    ['paint remover', 'lead', 'strippers', 'solvents', 'waste'],
    ['oily rags', 'waste'],
    ['NMP', 'strippers'],
    ['Paint stripper, share', 'lead', 'strippers', 'solvents', 'waste'],
    ['Plated hubs', 'plating'],
    ['replated base', 'plating'],
    ['chrome', 'plating'],
    ['Nickel strike', 'plating'],
    ['Nickel plating', 'plating'],
    ['wire wheel', 'lead', 'tools'],
    ['buffing', 'tools'],
    ['heat gun', 'lead', 'heat'],
    ['oven', 'lead', 'heat'],
    ['2K clear', 'spray', 'resins'],
    ['two-pack clear', 'spray', 'resins'],
    ['casting resin', 'resins'],
    ['epoxy', 'resins'],
    ['super glue', 'resins'],
    ['solder', 'resins'],
    ['Vacuum-formed glazing', 'resins'],
    ['Pilot drill and tap, share', 'tools'],
    ['cut the axles', 'tools'],
    ['wet sanding', 'lead'],
    ['steel wool', 'dust'],
    ['Metal polish and felts, share', 'tools'],
    ['Candy lacquer and clear coat, ember', 'spray'],
    ['Primer, share of a can', 'spray'],
  ];
  it.each(table)('%s', (text, ...expected) => {
    expect(hazardsIn([text])).toEqual(expected);
  });

  it.each([
    'Two hubs, slotted plate',
    'Template for labels',
    'Lucky Dip',
    'Hubs for a Lucky Dip',
    'Striped awning',
    'Strip of labels',
    'Sand still in the wheels',
    'Acid-free paper',
    'Wheels and axles',
    'Share of tools',
    'Glazing, saloon, clear plastic',
    'Reproduction wheels',
  ])('none in “%s”', text => {
    expect(hazardsIn([text])).toEqual([]);
  });

  it('are those of all texts together, the gravest first', () => {
    expect(hazardsIn(['clear coat', 'paint stripper', 'acid'])).toEqual([
      'acid',
      'lead',
      'strippers',
      'solvents',
      'spray',
      'waste',
    ]);
  });
});

describe('the hazards of an option', () => {
  it('are there whatever its plan says', () => {
    expect(hazardsOf('leave')).toEqual([]);
    expect(hazardsOf('restore')).toEqual([
      'lead',
      'strippers',
      'solvents',
      'spray',
      'tools',
      'dust',
      'waste',
    ]);
    expect(hazardsOf('customise')).toEqual(hazardsOf('restore'));
    expect(hazardsOf('donor')).toContain('tools');
    expect(hazardsOf('conserve').length).toBeGreaterThan(0);
    expect(hazardsOf('donor', ['acid'])).toEqual(['acid', 'tools']);
  });

  it('are those of its starting steps, whatever the car', () => {
    for (const kind of workKinds) {
      const always = startingSteps('USD').filter(
        ({ kinds, call, part }) =>
          kinds.includes(kind) && Object.keys(call).length === 0 && part !== 'labels',
      );
      const missed = always.flatMap(step => step.hazards).filter(hazard => !hazardsOf(kind).includes(hazard));
      expect(missed, kind).toEqual([]);
    }
    expect(hazardsOf('restore', ['acid'], ['tools'])).toEqual(['acid', 'tools']);
  });

  it('take in plating where the standard plan names it', () => {
    const { lines } = defaultAssumptions('USD').standardPlan.restore;
    expect(
      hazardsOf(
        'restore',
        lines.map(line => line.name),
      ),
    ).toContain('plating');
  });
});

describe('what the cautions say', () => {
  const said = (hazard: Hazard) => cautions[hazard].sentences.join(' ');
  const all = [...hazards.map(said), ...generalCautions, cautionLine].join(' ');

  it('keeps zinc alloy out of acid, and acid away from bleach', () => {
    expect(cautions.acid.sentences[0]).toMatch(/^Do not put zinc alloy in acid, not even briefly/);
    expect(said('acid')).toMatch(/hydrogen/);
    expect(said('acid')).toMatch(/bleach.*chlorine gas/);
    expect(said('acid')).toContain('acid goes into water, never water into acid');
    expect(all).not.toMatch(/dip briefly|look often/i);
  });

  it.each<[Hazard, RegExp]>([
    ['caustic', /blind/],
    ['plating', /No cyanide bath, no chromic acid/],
    ['plating', /stainless-steel anode/],
    ['plating', /salt water/],
    ['lead', /no dry sanding/],
    ['lead', /No heat gun, torch or hot plate/],
    ['lead', /HEPA/],
    ['strippers', /no stripper with methylene chloride/],
    ['waste', /catch fire by themselves/],
    ['solvents', /respirator for organic vapour/],
    ['spray', /isocyanates.*never at home with a cartridge mask/],
    ['resins', /isocyanates/],
    ['tools', /Eye protection/],
    ['heat', /used for food/],
    ['dust', /Steel wool across a battery catches fire: keep them apart/],
    ['acid', /never a closed jar/],
    ['acid', /respirator for acid gas/],
    ['acid', /Face shield, goggles/],
    ['caustic', /face shield and goggles, long gloves, the respirator/],
    ['plating', /gloves, goggles/],
    ['lead', /no wire wheel/],
    ['lead', /goggles and a half mask with P100 filters/],
    ['lead', /Sludge, water and rags with old paint are hazardous waste: .*local rules/],
    ['strippers', /gloves, goggles and respirator/],
    ['solvents', /gloves and goggles/],
    ['spray', /supplied air, in a trained shop only/],
    ['spray', /respirator that the paint’s sheet names, gloves and goggles/],
    ['resins', /goggles, moving air, the respirator/],
    ['tools', /drills snap, rivets jump, cut ends fly/],
    ['tools', /Wire wheels .* never on old paint/],
    ['heat', /No flame or heat gun on old paint/],
    ['dust', /P100\) and eye protection/],
    ['waste', /Sludge, rags, filters.* are hazardous waste: .*local rules/],
  ])('%s: %s', (hazard, sentence) => {
    expect(said(hazard)).toMatch(sentence);
  });

  it('names for each where to look it up', () => {
    for (const hazard of hazards) expect(cautions[hazard].authority.length, hazard).toBeGreaterThan(10);
  });

  it('stands in the README word for word', () => {
    expect(readmeParts().section).toBe(cautionsSection());
  });
});
