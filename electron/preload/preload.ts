import { ipcRenderer } from 'electron';
import { connectChannel, portChannel, readyMessage } from '../api/channels.ts';

// All that the page gets is two ports; no function or object of Electron's reaches it.
ipcRenderer.on(portChannel, event => window.postMessage(portChannel, window.location.origin, event.ports));

window.addEventListener('message', event => {
  if (event.source === window && event.data === readyMessage) ipcRenderer.send(connectChannel);
});

// The main process refuses every other address; of about:blank, which is fetched from nowhere, it
// only hears afterwards.
window.navigation.addEventListener('navigate', event => {
  if (event.destination.url.startsWith('about:')) event.preventDefault();
});
