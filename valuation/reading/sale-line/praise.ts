const praise =
  /^(?:vintage|rare|nice|very|super|original|old|great|lovely|good|mint|near|excellent|fine|played|beater|rough|lot|unknown|some|sort|set|new|clean)$/i;

/** True of a word with which sellers describe any car, and which begins no name. */
export const isPraise = (word: string): boolean => praise.test(word);
