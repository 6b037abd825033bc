import { join } from 'node:path';
import { app, BrowserWindow, nativeTheme, screen } from 'electron';
import { lockedPreferences } from './locked-preferences.ts';
import { screensUrl } from './screens-scheme.ts';
import { keepPlace, readPlace, smallestWindow } from './window-place.ts';

const paper = { light: '#F7F5F0', dark: '#1B1D1F' };

/** The one window: isolated, sandboxed, without Node, in the place where it was last. */
export const openWindow = (preload: string): BrowserWindow => {
  const placeFile = join(app.getPath('userData'), 'window.json');
  const { maximised, ...place } = readPlace(
    placeFile,
    screen.getAllDisplays().map(display => display.workArea),
  );
  const window = new BrowserWindow({
    ...place,
    minWidth: smallestWindow.width,
    minHeight: smallestWindow.height,
    show: false,
    title: 'Playworn',
    backgroundColor: nativeTheme.shouldUseDarkColors ? paper.dark : paper.light,
    webPreferences: {
      preload,
      ...lockedPreferences,
    },
  });
  if (maximised) window.maximize();
  window.once('ready-to-show', () => window.show());
  window.on('close', () =>
    keepPlace(placeFile, { ...window.getNormalBounds(), maximised: window.isMaximized() }),
  );
  void window.loadURL(screensUrl);
  return window;
};
