import type { Put } from './put.ts';
import { type Line, spanOf, words } from './text.ts';

const size =
  '(?:(?:an?|the|one|two|three|few|some|several|small|tiny|slight|light|minor|little|deep|big|large|heavy|bad|bit of|hairline|early|beginning|has|with) )*';
const place =
  'roof|bonnet|hood|boot|trunk|wings?|fenders?|body|bodyshell|casting|metal|base|baseplate|posts?|rivets?|pillars?|sides?|nose|tail|front|rear|back|corner|edge|sill|cab|bed|frame|chassis|dach|haube|toit|capot';
const where = `(?: (?:in|on|at|to|by|near|under|across|behind|im|am|an|auf|sur) (?:the |a |one |its )*(?:(?:left|right|front|rear|back|lower|upper|one|driver's) )*(?:${place}))`;
const patterns = [
  // A dent is one of metal, whatever it is in.
  `${size}(?:(?:${place}) )?(?:dents?|dings?|dented|dinged|beule[n]?)${where}?`,
  // Glass cracks, too: a crack is one of the metal where the metal is named.
  `${size}(?:casting|metal|body|roof|post|base|stress) cracks?${where}?`,
  `${size}(?:cracks?|cracked|split|riss)${where}`,
  `cracked (?:${place})`,
  `${size}(?:(?:zinc|metal|casting) )(?:rot|pest|decay|fatigue|disease|crumbling|corrosion|pitting)${where}?`,
  `${size}(?:zinkpest|pitting|pitted)${where}?`,
];
const denied =
  /(?:^|[^\p{L}])(?:no|not|without|w\/o|never|any|free of|ohne|keine?|sans|pas de) *(?:\p{L}+ (?:or|and|oder) )?$/u;

/** What has become of the casting's metal, as it is written: dents, cracks and decay. */
export const takeMetal = (line: Line, put: Put): void => {
  const found: string[] = [];
  let first: { start: number; end: number } | null = null;
  for (const pattern of patterns)
    for (const match of line.matches(words(pattern))) {
      const span = spanOf(match);
      const before = line.rest().slice(0, span.start);
      if (denied.test(before) || line.rest()[span.end] === '?') {
        line.doubt(span);
        continue;
      }
      found.push(line.text.slice(span.start, span.end).trim());
      first ??= span;
      line.take(span);
    }
  if (first) put('metal', found.join(', '), first);
};
