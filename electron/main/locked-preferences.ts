/** What a page may, said in full: a default may change with any Electron. */
export const lockedPreferences = {
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
  // Its dictionaries would be downloaded.
  spellcheck: false,
} as const;
