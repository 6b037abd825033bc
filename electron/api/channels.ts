/** Every message between the page, its preload and the main process. All they do is hand over ports. */

/** Page → preload: "my scripts listen". */
export const readyMessage = 'playworn:ready';

/** Preload → main: this document asks for its ports. The main process checks who asks. */
export const connectChannel = 'playworn:connect';

/** Main → preload → page: the ports to the data service and to the shell, in this order. */
export const portChannel = 'playworn:port';
