import { Modal } from '@mantine/core';
import { KeyHint } from './key-hint.tsx';
import type { KeyGroup, ScreenKey } from './key-registry.ts';
import classes from './keys.module.css';
import { useKeyGroups } from './use-keys.ts';

/** What the shell lists comes after the screen's own. */
const last = ['Places', 'Everywhere'];

/** One group per title, in the order in which they came. */
const mergeGroups = (groups: readonly KeyGroup[]): KeyGroup[] => {
  const merged = new Map<string, ScreenKey[]>();
  for (const { title, keys } of groups) merged.set(title, [...(merged.get(title) ?? []), ...keys]);
  return [...merged]
    .map(([title, keys]) => ({ title, keys }))
    .sort((a, b) => last.indexOf(a.title) - last.indexOf(b.title));
};

/** The keys of the screen that is shown, grouped as they were registered; opened with "?". */
export const KeySheet = ({ opened, onClose }: { opened: boolean; onClose: () => void }) => {
  const groups = mergeGroups(useKeyGroups());
  return (
    <Modal opened={opened} onClose={onClose} title="Keyboard shortcuts" size="xl">
      <div className={classes.sheet}>
        {groups.map(group => (
          <section key={group.title} className={classes.group}>
            <h3>{group.title}</h3>
            <dl className={classes.list}>
              {group.keys.map(key => (
                <div key={key.keys + key.does} className={classes.row}>
                  <dt>
                    {key.keys.split(' ').map(keys => (
                      <KeyHint key={keys} keys={keys} />
                    ))}
                  </dt>
                  <dd>{key.does}</dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
      </div>
    </Modal>
  );
};
