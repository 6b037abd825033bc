/**
 * Work at one step that goes on longer than this was left running: nobody holds a file for four hours. Common
 * practice, no source.
 */
const longest = 4 * 3600;

/**
 * The seconds between two instants (ISO 8601, UTC) that count as work. Null where they cannot be told from
 * the clock: it was left running over more than four hours, such as a night, or it was set back meanwhile.
 * Throws RangeError on an instant that is none.
 */
export const countSpan = (startedAt: string, endedAt: string): number | null => {
  const [from, to] = [Date.parse(startedAt), Date.parse(endedAt)];
  if (Number.isNaN(from) || Number.isNaN(to)) throw new RangeError(`no instants: ${startedAt}, ${endedAt}`);
  const seconds = Math.round((to - from) / 1000);
  return seconds < 0 || seconds > longest ? null : seconds;
};
