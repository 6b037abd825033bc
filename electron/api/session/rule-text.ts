import type { BrokenRule, UniqueThing } from '../../../db/constraints.ts';

const notUnique: Record<UniqueThing, string> = {
  'inventory-number': 'Another car has this inventory number already. Give each car its own.',
  'lot-name': 'There is already a lot with this name. Choose another name.',
  'casting-name': 'This series already has a casting with this name.',
  'variation-features': 'This release already has a variation with exactly these features.',
  'release-name': 'This casting already has a release with this name and year.',
  'part-name': 'There is already a part with this name.',
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
      return 'A value is outside what the collection can store. Nothing was changed.';
  }
};
