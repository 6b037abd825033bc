/** What a report is called where its owner chooses nothing else. */
export const usualTitle = 'Collection report';

/** The title of a report: a report of one lot is called so where nothing else was chosen. */
export const reportTitle = (chosen: string, isOfLot: boolean): string => {
  const title = chosen.trim() || usualTitle;
  return isOfLot && title === usualTitle ? 'Lot report' : title;
};
