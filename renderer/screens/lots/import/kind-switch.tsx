import { SegmentedControl } from '@mantine/core';
import classes from './import.module.css';
import { bookWords, isBook, isKind, kindWords, type ListKind } from './import-choice.ts';

/** What a list holds: cars, sale records, the reference, or one of the lists of the books. */
export const KindSwitch = ({ as, onKind }: { as: ListKind; onKind: (as: ListKind) => void }) => (
  <span className={classes.kindRows}>
    <SegmentedControl
      aria-label="What the file holds"
      classNames={{ root: classes.kinds }}
      value={isBook(as) ? 'books' : as}
      onChange={value => (isKind(value) ? onKind(value) : onKind('lots'))}
      data={[
        ...Object.entries(kindWords).map(([value, { title }]) => ({ value, label: title })),
        { value: 'books', label: 'Other lists' },
      ]}
    />
    {isBook(as) ? (
      <SegmentedControl
        aria-label="Which of the other lists"
        classNames={{ root: classes.kinds }}
        value={as}
        onChange={value => isBook(value) && onKind(value)}
        data={Object.entries(bookWords).map(([value, { title }]) => ({ value, label: title }))}
      />
    ) : null}
  </span>
);
