/** Where things go whose maker or series nobody has given yet. */
export const unknownMaker = 'Unknown maker';

/** Where a casting goes whose series nobody has given yet. */
export const unsortedSeries = 'Unsorted';
