import { readdirSync, readFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { cautionLine, cautions, generalCautions } from '../../../valuation/wording/work/cautions.ts';
import { hazards } from '../../../valuation/words.ts';
import { startingSteps } from '../../../valuation/work/steps/index.ts';
import { readmeParts } from '../../helpers/readme-cautions.ts';

/** Ways that hurt people or castings. Only the cautions name them, and there they are refused. */
const harmful =
  /\bacid (?:bath|dip)|\bdip(?:ped|ping)? (?:it |them )?(?:briefly|in (?:acid|vinegar|lye|bleach))|\b(?:dip|soak|put|leave|lay|steep)(?:s|ped|ping|ed|ing|ting)?\b[^.;:?]{0,40} in (?:\w+ )?(?:acid|vinegar|lye|bleach|brake fluid|caustic)|\bsand(?:ed|ing)?\b[^.;:?]{0,25} dry\b|muriatic|hydrochloric|cyanide|chromic|chromate|stainless[- ]steel|methylene chloride|\bNMP\b|caustic soda|\blye\b|oven cleaner|brake fluid|\bbleach|heat[- ]gun|blow ?torch|hot plate|\bin an? oven|wire[- ]wheel|dry[- ]?sand|sand ?blast|\b2[- ]?K\b|two[- ]pack|isocyanate/i;
/** A sentence that names one must say not to. */
const refuses =
  /\b(?:no|not|never|nor|cannot|away|apart|harm|blind|dissolve|choking|can cause|hold)\b|lead fume/i;

const root = join(import.meta.dirname, '../../..');
const places = ['renderer', 'reports', 'electron', 'db', 'valuation'];
/** The cautions themselves, and the words by which they are found in an owner's text. */
const own = ['valuation/wording/work/cautions.ts'];

/**
 * Where a text names a harmful way, also where it is broken over two lines or over two pieces of a sentence
 * that are put together; by the line in which it begins.
 */
const harmfulIn = (text: string): string[] => {
  // What stands between two lines of a text: breaks, indents, marks of comments and quotes, the plus between.
  const joined: string[] = [];
  const lineOf: number[] = [];
  for (const [i, line] of text.split('\n').entries()) {
    const words = line
      .replace(/^\s*(?:\/\/+|\/\*+|\*(?!\*)|>|-(?= ))?\s*(?:[`'"](?=\S))?/, '')
      .replace(/\s*(?:[`'"]\s*(?:\+|\\)?)?\s*$/, '');
    joined.push(words);
    for (let at = 0; at <= words.length; at++) lineOf.push(i + 1);
  }
  const all = new RegExp(harmful.source, 'gi');
  return [...joined.join(' ').matchAll(all)].map(found => `${lineOf[found.index]}: ${found[0]}`);
};

const files = places.flatMap(place =>
  readdirSync(join(root, place), { recursive: true, encoding: 'utf8' })
    .map(name => `${place}/${name.replaceAll('\\', '/')}`)
    .filter(name => ['.ts', '.tsx', '.typ'].includes(extname(name)) && !own.includes(name)),
);

describe('harmful ways', () => {
  it('are advised in no text of the program', () => {
    expect(files.length).toBeGreaterThan(300);
    const found = files.flatMap(name =>
      harmfulIn(readFileSync(join(root, name), 'utf8')).map(found => `${name}:${found}`),
    );
    expect(found).toEqual([]);
  });

  it('are advised nowhere in the README', () => {
    const { before, after } = readmeParts();
    expect(harmfulIn(`${before}\n${after}`)).toEqual([]);
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
      'Dip the bare metal in vinegar and degrease it',
      'leave the body overnight in weak acid',
      'Sand the body dry',
      'Use a heat gun',
      'half acid bath',
      '2K clear',
    ])
      expect(bad).toMatch(harmful);
    for (const good of ['Do the work', 'Smooth it wet with paper and let it dry', 'Leave it in a box'])
      expect(good).not.toMatch(harmful);
    for (const broken of [
      'First\nuse a heat\ngun on it',
      '/**\n * Soak it: soaked\n * in vinegar\n */',
      "const text =\n  'Use an oven ' +\n  'cleaner first';",
      'Take it to the\n    blow\n    torch',
    ])
      expect(harmfulIn(broken), broken).toHaveLength(1);
    expect(harmfulIn('First\nuse a heat\ngun on it')).toEqual(['2: heat\ngun'.replace('\n', ' ')]);
    expect(harmfulIn('Do the\nwork')).toEqual([]);
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
