import { readdirSync, readFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { cautionLine, cautions, generalCautions } from '../../../valuation/wording/cautions.ts';
import { hazards } from '../../../valuation/words.ts';
import { startingSteps } from '../../../valuation/work/steps/index.ts';
import { readmeParts } from '../../helpers/readme-cautions.ts';

/** Ways that hurt people or castings. Only the cautions name them, and there they are refused. */
const harmful =
  /\bacid (?:bath|dip)|\bdip(?:ped|ping)? (?:it |them )?(?:briefly|in (?:acid|vinegar|lye|bleach))|soak(?:ed|ing)? in (?:acid|vinegar|lye|bleach|brake fluid)|muriatic|hydrochloric|cyanide|chromic|chromate|stainless[- ]steel|methylene chloride|\bNMP\b|caustic soda|\blye\b|oven cleaner|brake fluid|\bbleach|heat[- ]gun|blow ?torch|hot plate|\bin an? oven|wire[- ]wheel|dry[- ]?sand|sand ?blast|\b2[- ]?K\b|two[- ]pack|isocyanate/i;
/** A sentence that names one must say not to. */
const refuses =
  /\b(?:no|not|never|nor|cannot|away|apart|harm|blind|dissolve|choking|can cause|hold)\b|lead fume/i;

const root = join(import.meta.dirname, '../../..');
const places = ['renderer', 'reports', 'electron', 'db', 'valuation'];
/** The cautions themselves, and the words by which they are found in an owner's text. */
const own = ['valuation/wording/cautions.ts'];

const files = places.flatMap(place =>
  readdirSync(join(root, place), { recursive: true, encoding: 'utf8' })
    .map(name => `${place}/${name.replaceAll('\\', '/')}`)
    .filter(name => ['.ts', '.tsx', '.typ'].includes(extname(name)) && !own.includes(name)),
);

describe('harmful ways', () => {
  it('are advised in no text of the program', () => {
    expect(files.length).toBeGreaterThan(300);
    const found = files.flatMap(name =>
      readFileSync(join(root, name), 'utf8')
        .split('\n')
        .flatMap((line, i) => (harmful.test(line) ? [`${name}:${i + 1}: ${line.trim()}`] : [])),
    );
    expect(found).toEqual([]);
  });

  it('are advised nowhere in the README', () => {
    const { before, after } = readmeParts();
    for (const line of `${before}\n${after}`.split('\n')) expect(line).not.toMatch(harmful);
  });

  it('are refused by every sentence of the cautions that names one', () => {
    let named = 0;
    const sentences = [
      ...hazards.flatMap(hazard => cautions[hazard].sentences),
      ...generalCautions,
      cautionLine,
    ];
    for (const sentence of sentences) {
      if (!harmful.test(sentence)) continue;
      named++;
      expect(sentence).toMatch(refuses);
    }
    expect(named).toBeGreaterThan(8);
  });

  it('are found where they stand', () => {
    for (const bad of [
      'Dip briefly, look often',
      'soak in vinegar',
      'Use a heat gun',
      'half acid bath',
      '2K clear',
    ])
      expect(bad).toMatch(harmful);
    expect('Do the work').not.toMatch(harmful);
  });
});

it('every hazard of the starting steps has its caution, with where to look it up', () => {
  const called = new Set(startingSteps('USD').flatMap(step => step.hazards));
  expect(called.size).toBeGreaterThan(6);
  for (const hazard of called) {
    expect(cautions[hazard].sentences[0]).toBeTruthy();
    expect(readmeParts().section).toContain(cautions[hazard].title);
  }
});
