import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useLocation } from 'wouter';
import type { CollectionState } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { useProgress } from '../../api/use-progress.ts';
import { Emblem } from '../../components/emblem/emblem.tsx';
import { OpenFolder } from '../../components/folders/open-folder.tsx';
import { places } from '../../components/layout/places.ts';
import { useDocumentTitle } from '../../components/layout/use-document-title.ts';
import { Choices, type Way } from './choices.tsx';
import classes from './first-start.module.css';
import { NewCollection } from './new-collection.tsx';

/** What is seen while no collection is open: what this is, and three ways in. */
const FirstStartScreen = () => {
  useDocumentTitle('Welcome');
  const { data: state } = useQuery({
    queryKey: ['collection state'],
    queryFn: () => api.collection.state(),
  });
  const [way, setWay] = useState<Way | null>(null);
  const [, navigate] = useLocation();
  const demo = useProgress<CollectionState>();
  const openDemo = async () => {
    setWay('demo');
    const opened = await demo.start(signal => api.collection.openDemo(undefined, { signal }));
    if (opened) navigate('/');
  };
  return (
    <main className={classes.screen} id="content">
      <div className={classes.column}>
        <header className={classes.head}>
          <div className={classes.words}>
            <h1>Playworn</h1>
            <p className={classes.lead}>
              What each car is, its condition, and what it is worth as found, restored, or in its factory
              finish.
            </p>
          </div>
          <Emblem />
        </header>
        {state?.problem ? (
          <p className={classes.problem}>
            The collection in {state.problem.dir} cannot be opened.{' '}
            <a href={`#${places.recovery}`}>See what is wrong, and its backups</a>
          </p>
        ) : null}
        {state?.notices.length ? (
          <div className={classes.notices} role="alert">
            {state.notices.map(notice => (
              <p key={notice}>{notice}</p>
            ))}
          </div>
        ) : null}
        <Choices
          way={way}
          demo={demo}
          onDemo={() => void openDemo()}
          onChoose={chosen => {
            demo.reset();
            setWay(way === chosen ? null : chosen);
          }}
        />
        {state && (way === 'empty' || way === 'import') ? (
          <NewCollection key={way} way={way} defaultDir={state.defaultDir} onCancel={() => setWay(null)} />
        ) : null}
        <OpenFolder open={way === 'open'} onOpen={() => setWay('open')} onCancel={() => setWay(null)} />
      </div>
      <footer className={classes.foot}>
        A collection is a folder of your own: it stays on this computer, and nothing is sent anywhere.
        {state ? <span className="tabular"> Version {state.version}.</span> : null}
      </footer>
    </main>
  );
};

export default FirstStartScreen;
