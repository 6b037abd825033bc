import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { connect } from './api/connect.ts';
import { queryClient } from './api/query-client.ts';
import { clickDespiteShifts } from './components/actions/late-shifts.ts';
import { KeyRegistry } from './components/keys/key-registry.ts';
import { App } from './shell/app.tsx';
import { placeIn } from './shell/hash-location.ts';
import { beginHome } from './shell/routes.ts';

const keys = new KeyRegistry().listen(window);
const standsNow = keys.awaitScreen();
clickDespiteShifts(window);
connect();
if (placeIn(location.hash).path === '/') beginHome(queryClient);

const root = document.getElementById('root');
if (!root) throw new Error('The page has no root to draw in.');
const drawn = () => {
  root.removeAttribute('aria-busy');
  standsNow();
};
createRoot(root).render(
  <StrictMode>
    <App keys={keys} onDrawn={drawn} />
  </StrictMode>,
);
