import { QueryClientProvider } from '@tanstack/react-query';
import { useState } from 'react';
import { createRoot } from 'react-dom/client';
import { connectApi } from '../../../renderer/api/client.ts';
import { queryClient } from '../../../renderer/api/query-client.ts';
import { KeyRegistry } from '../../../renderer/components/keys/key-registry.ts';
import { KeySheet } from '../../../renderer/components/keys/key-sheet.tsx';
import { KeysProvider, useKeys } from '../../../renderer/components/keys/use-keys.ts';
import { AppTheme } from '../../../renderer/theme/app-theme.tsx';
import { GridPage } from './grid-page.tsx';
import { PartsPage } from './parts-page.tsx';

// No service stands behind the gallery: every call is refused, so that components show what they show then.
connectApi(Promise.resolve({ call: async () => Promise.reject(new Error('There is no service here.')) }));

const parameters = new URLSearchParams(location.search);

const Gallery = () => {
  const [keys, setKeys] = useState(false);
  useKeys('Everywhere', [{ keys: '?', does: 'Keyboard shortcuts', run: () => setKeys(true) }]);
  return (
    <main style={{ height: '100%' }}>
      {parameters.get('page') === 'grid' ? (
        <GridPage count={Number(parameters.get('rows') ?? 60)} />
      ) : (
        <PartsPage />
      )}
      <KeySheet opened={keys} onClose={() => setKeys(false)} />
    </main>
  );
};

const root = document.getElementById('root');
if (root)
  createRoot(root).render(
    <AppTheme>
      <KeysProvider value={new KeyRegistry().listen(window)}>
        <QueryClientProvider client={queryClient}>
          <Gallery />
        </QueryClientProvider>
      </KeysProvider>
    </AppTheme>,
  );
