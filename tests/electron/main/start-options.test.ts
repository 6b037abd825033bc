import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { profileName, startOptions } from '../../../electron/main/start-options.ts';

describe('what the app was started with', () => {
  it('is found among the switches of Electron and Chromium', () => {
    const argv = ['--no-sandbox', '/app', '--collection=/home/ada/Cars', '--demo', '--inspect=0'];
    expect(startOptions(argv)).toEqual({ collection: '/home/ada/Cars', demo: true });
    expect(startOptions(['/app'])).toEqual({ demo: false });
    expect(startOptions(['--collection=Cars']).collection).toBe(resolve('Cars'));
  });
  it('gives each collection a profile of its own, and the same one each time', () => {
    const name = (...argv: string[]) => profileName(startOptions(argv));
    expect(name()).toBeNull();
    expect(name('--collection=/a')).toMatch(/^[0-9a-f]{16}$/);
    expect(name('--collection=/a')).toBe(name('--collection=/x/../a'));
    expect(new Set([name(), name('--demo'), name('--collection=/a'), name('--collection=/b')]).size).toBe(4);
  });
});
