/** What is asked and answered of lists that are read a screenful at a time. */

/** How a list is ordered. */
export interface ListOrder {
  sort: { columnId: string; descending: boolean } | null;
  /**
   * Names the time at which its reader sorted it: until another is named, rows stay where they were then. Empty
   * where every answer is to be sorted.
   */
  since: string;
  /** Whose alphabet counts. */
  locale: string;
}

/** How many cars have been worked out anew by now, while what is shown is from before the last change. */
export interface WorkingOut {
  done: number;
  of: number;
}

/** Some rows of a list, from a place on. */
export interface ListWindow<Row> {
  /** So many rows are shown in all. */
  total: number;
  from: number;
  rows: Row[];
}
