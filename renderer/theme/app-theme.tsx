import '@fontsource-variable/source-sans-3/wght.css';
import './mantine-styles.ts';
import './tokens.css';
import './base.css';
import { localStorageColorSchemeManager, MantineProvider } from '@mantine/core';
import { Notifications } from '@mantine/notifications';
import { type ReactNode, useEffect } from 'react';
import { listenForEnter } from './marked-option.ts';
import notices from './notices.module.css';
import { theme, themeVariables } from './theme.ts';

const schemes = localStorageColorSchemeManager({ key: 'playworn-colour-scheme' });

/** The host's policy lets only style elements with this document's nonce through. */
const styleNonce = (): string =>
  document.querySelector<HTMLMetaElement>('meta[name="style-nonce"]')?.content ?? '';

/** Wraps the app in its theme; light, dark or as the system has it, remembered per browser profile. */
export const AppTheme = ({ children }: { children: ReactNode }) => {
  useEffect(listenForEnter, []);
  return (
    <MantineProvider
      theme={theme}
      cssVariablesResolver={themeVariables}
      colorSchemeManager={schemes}
      defaultColorScheme="auto"
      getStyleNonce={styleNonce}
    >
      <Notifications
        position="top-right"
        limit={4}
        autoClose={8000}
        transitionDuration={120}
        classNames={{ root: notices.stack }}
      />
      {children}
    </MantineProvider>
  );
};
