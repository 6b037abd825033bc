import { type IpcMainEvent, ipcMain, type WebFrameMain } from 'electron';
import { isScreensUrl } from './screens-scheme.ts';

/**
 * The window's own frame, showing our screens: not a frame within it, another window, or a
 * page it strayed to.
 */
const isTrusted = (frame: WebFrameMain | null, own: WebFrameMain | undefined): boolean =>
  frame !== null && frame === own && frame.parent === null && isScreensUrl(frame.url);

/** The one way in which the main process listens to pages: anything from another sender is dropped. */
export const onTrustedMessage = (
  channel: string,
  ownFrame: () => WebFrameMain | undefined,
  listener: (event: IpcMainEvent, frame: WebFrameMain) => void,
): void => {
  ipcMain.on(channel, event => {
    const frame = event.senderFrame;
    if (frame && isTrusted(frame, ownFrame())) listener(event, frame);
    else console.warn(`Dropped a message on ${channel} from ${frame?.url ?? 'a frame that is gone'}`);
  });
};
