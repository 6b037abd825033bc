/** What the choice between the window and the browser depends on. */
export interface Surroundings {
  platform: string;
  env: NodeJS.ProcessEnv;
  /** Running as root, on a system that has one. */
  isRoot: boolean;
  /** The user passed --no-sandbox. */
  noSandbox: boolean;
}

/** Why no window can be shown here, as a sentence, or null where nothing stands against it. */
export const windowObstacle = ({ platform, env, isRoot, noSandbox }: Surroundings): string | null => {
  if (platform === 'linux' && !env.DISPLAY && !env.WAYLAND_DISPLAY)
    return 'There is no display here (neither DISPLAY nor WAYLAND_DISPLAY is set), so the window cannot be shown.';
  if (platform === 'linux' && isRoot && !noSandbox)
    return [
      'You are root, and Electron does not run as root inside its sandbox, so the window is not shown.',
      'Start as an ordinary user; or pass --no-sandbox if you accept that the screens then run without that protection.',
    ].join('\n');
  return null;
};
