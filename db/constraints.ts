/** Which rule of the tables was broken, by the column that the database names first. */
const uniques: [RegExp, string][] = [
  [/car\.inventory_number/, 'Another car has this inventory number already. Give each car its own.'],
  [/lot\.name/, 'There is a lot of this name already. Choose another name.'],
  [/casting\.series_id/, 'This series has a casting of this name already.'],
  [/variation\.release_id/, 'This release has a variation with exactly these features already.'],
  [/release\.casting_id/, 'This casting has a release of this name and year already.'],
  [/part\.name/, 'There is a part of this name already.'],
  [/disposal\.car_id/, 'This car has been sold already. Undo that sale first.'],
];

/** What to say of a row that the tables refuse, as a sentence for the owner; undefined where the error is another. */
export const constraintSentence = (error: Error): string | undefined => {
  const code = 'code' in error ? String(error.code) : '';
  if (code === 'SQLITE_CONSTRAINT_UNIQUE')
    return uniques.find(([pattern]) => pattern.test(error.message))?.[1] ?? 'There is one like it already.';
  if (code === 'SQLITE_CONSTRAINT_FOREIGNKEY')
    return 'Something else in the collection still refers to it, or what it refers to is gone. Nothing was changed.';
  if (code.startsWith('SQLITE_CONSTRAINT'))
    return 'A value is outside what the collection can keep. Nothing was changed.';
  return undefined;
};
