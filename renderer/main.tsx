import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { connect } from './api/connect.ts';
import { App } from './shell/app.tsx';

connect();

const root = document.getElementById('root');
if (!root) throw new Error('The page has no root to draw in.');
createRoot(root).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
