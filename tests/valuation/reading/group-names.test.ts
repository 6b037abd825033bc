import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { groupNames, type Parted } from '../../../valuation/reading/names/group-names.ts';
import { nearness, spellingsApart } from '../../../valuation/reading/names/likeness.ts';
import { nameKey } from '../../../valuation/reading/names/name-key.ts';

const apart = (a: string, b: string) => spellingsApart(nameKey(a), nameKey(b));

describe('spellings of one name', () => {
  it.each([
    ['Brackenhall Van', 'BRACKENHALL  van', 0],
    ['Brackenhall Van', 'brackenhall-van', 0],
    ['Brackenhall Van', 'Brackenhall Vans', 0],
    ['Brackenhall Van', 'Van, Brackenhall', 0],
    ['Brackenhall Van', 'BrackenhallVan', 0],
    ['The Silver Kite', 'Silver Kite', 0],
    ["Carrier's Friend", 'Carriers Friend', 0],
    ['Corriemuir Coupé', 'corriemuir coupe', 0],
    ['Mk 2 Tourer', 'Mk2 Tourer', 0],
    ['Silver Kite', 'Sliver Kite', 1],
    ['Brackenhall Van', 'Brakenhal Van', 2],
    ['Brackenhall Van', 'Van, Brakenhall', 1],
  ])('%s and %s are one name', (a, b, away) => {
    expect(apart(a, b)).toBe(away);
    expect(apart(b, a)).toBe(away);
  });

  it.each([
    ['Silver Kite', 'Silver Kate Van'],
    ['Silver Kite', 'Golden Kite'],
    ['Red Fox', 'Red Box'],
    ['Tourer 12', 'Tourer 21'],
    ['Tourer Mk II', 'Tourer Mk III'],
    ['Type E', 'Type D'],
    ['Silver Kite', ''],
    ['---', '***'],
  ])('%s and %s are not', (a, b) => {
    expect(apart(a, b)).toBeNull();
    expect(apart(b, a)).toBeNull();
  });

  it('are nearer than other names', () => {
    const near = (text: string) => nearness(nameKey('Brackenhall Van'), nameKey(text));
    expect(near('Van Brackenhal')).toBeGreaterThan(near('Brackenhall Coupe'));
    expect(near('Brackenhall Coupe')).toBeGreaterThan(near('Silver Kite'));
    expect(near('Brackenhall Van')).toBe(1);
  });
});

const word = fc.constantFrom(
  'silver',
  'sliver',
  'silvar',
  'kite',
  'kites',
  'Kyte',
  'van',
  'brackenhall',
  'brackenhal',
  'mk',
  '2',
  'ii',
);
const name = fc
  .array(word, { minLength: 1, maxLength: 3 })
  .chain(words => fc.constantFrom(words.join(' '), words.join('-').toUpperCase(), `  ${words.join('  ')}`));
const names = fc.uniqueArray(
  fc.oneof({ arbitrary: name, weight: 9 }, { arbitrary: fc.string({ maxLength: 12 }), weight: 1 }),
  { maxLength: 30 },
);
const partedOf = (texts: string[]) =>
  texts.length < 2
    ? fc.constant<Parted[]>([])
    : fc.array(fc.tuple(fc.constantFrom(...texts), fc.constantFrom(...texts)), { maxLength: 12 });

describe('grouping', () => {
  it('says the same whatever the order, and loses none and doubles none', () => {
    fc.assert(
      fc.property(
        names.chain(texts =>
          fc.tuple(
            fc.constant(texts),
            fc.shuffledSubarray(texts, { minLength: texts.length }),
            partedOf(texts),
          ),
        ),
        ([texts, shuffled, parted]) => {
          const groups = groupNames(texts, parted);
          expect(groupNames(shuffled, parted.map(([a, b]) => [b, a] as const).reverse())).toEqual(groups);
          expect(groups.flat().sort()).toEqual([...texts].sort());
        },
      ),
    );
  });

  it('never joins parted names, nor any two that are not like each other', () => {
    let joined = 0;
    fc.assert(
      fc.property(
        names.chain(texts => fc.tuple(fc.constant(texts), partedOf(texts))),
        ([texts, parted]) => {
          for (const group of groupNames(texts, parted)) {
            for (const [a, b] of parted)
              if (a !== b) expect(group.includes(a) && group.includes(b)).toBe(false);
            for (const a of group) for (const b of group) if (a !== b) expect(apart(a, b)).not.toBeNull();
            if (group.length > 1) joined++;
          }
        },
      ),
    );
    expect(joined).toBeGreaterThan(10);
  });

  it('joins every two that are like each other where nothing stands against it', () => {
    fc.assert(
      fc.property(name, name, (a, b) => {
        expect(groupNames([a, b])).toHaveLength(a === b || apart(a, b) !== null ? 1 : 2);
      }),
    );
  });

  it('keeps the rest of a group together where one is parted from it', () => {
    const texts = ['Silver Kite', 'Silver Kites', 'Sliver Kite'];
    expect(groupNames(texts)).toEqual([texts]);
    expect(
      groupNames(texts, [
        ['Sliver Kite', 'Silver Kite'],
        ['Sliver Kite', 'Silver Kites'],
      ]),
    ).toEqual([['Silver Kite', 'Silver Kites'], ['Sliver Kite']]);
  });
});
