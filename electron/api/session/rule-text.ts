import type { BrokenRule, UniqueThing } from '../../../db/constraints.ts';

const notUnique: Record<UniqueThing, string> = {
  'inventory-number': 'Another car has this inventory number already. Give each car its own.',
  'lot-name': 'There is a lot of this name already. Choose another name.',
  'casting-name': 'This series has a casting of this name already.',
  'variation-features': 'This release has a variation with exactly these features already.',
  'release-name': 'This casting has a release of this name and year already.',
  'part-name': 'There is a part of this name already.',
  'disposal-of-car': 'This car has been sold already. Undo that sale first.',
};

/** What is said of a row that the tables refuse, as a sentence for the owner. */
export const ruleText = (rule: BrokenRule): string => {
  switch (rule.kind) {
    case 'not-unique':
      return rule.thing === null ? 'There is one like it already.' : notUnique[rule.thing];
    case 'reference':
      return 'Something else in the collection still refers to it, or what it refers to is gone. Nothing was changed.';
    case 'value':
      return 'A value is outside what the collection can keep. Nothing was changed.';
  }
};
