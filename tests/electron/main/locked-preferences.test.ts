import { expect, it } from 'vitest';
import { lockedPreferences } from '../../../electron/main/locked-preferences.ts';

it('leaves nothing of Electron’s checklist for the page to a default', () => {
  expect(lockedPreferences).toEqual({
    contextIsolation: true,
    sandbox: true,
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
    webSecurity: true,
    allowRunningInsecureContent: false,
    experimentalFeatures: false,
    webviewTag: false,
    navigateOnDragDrop: false,
    spellcheck: false,
  });
});
