import { Modal } from '@mantine/core';
import { KeyHint } from './key-hint.tsx';
import { useKeyGroups } from './key-registry.ts';
import classes from './keys.module.css';

/** The keys of the screen that is shown, grouped as they were registered; opened with "?". */
export const KeySheet = ({ opened, onClose }: { opened: boolean; onClose: () => void }) => {
  const groups = useKeyGroups();
  return (
    <Modal opened={opened} onClose={onClose} title="Keys of this screen" size="xl">
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
