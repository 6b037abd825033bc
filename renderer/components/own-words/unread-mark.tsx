import classes from './own-words.module.css';

/** A text that was written beside a field and is not understood yet. */
interface Unread {
  column: string;
  text: string;
  field: string;
}

/** “Cond. “good”, Base “painted””: what of a row is not understood, in words. */
export const unreadText = (unread: readonly Unread[]): string =>
  unread.map(({ column, text }) => `${column} “${text}”`).join(', ');

/** The texts of a field that are not understood, flagged beside it; nothing where there are none. */
export const UnreadMark = ({ unread, field }: { unread: readonly Unread[]; field?: string }) => {
  const own = field === undefined ? unread : unread.filter(one => one.field === field);
  if (own.length === 0) return null;
  return (
    <span className={classes.unread} title={`Not understood: ${unreadText(own)}`}>
      {field === undefined ? unreadText(own) : own.map(({ text }) => `“${text}”`).join(', ')}
      <span aria-hidden="true"> ?</span>
    </span>
  );
};
