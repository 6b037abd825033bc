import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { streamed } from '../../../../electron/api/session/progress.ts';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

describe('long work of which nothing is heard', () => {
  it('says again and again what it is waiting for, until it goes on', async () => {
    let goOn = () => {};
    const waiting = new Promise<void>(resolve => {
      goOn = resolve;
    });
    const stream = streamed(async report => {
      report(3, 7, 'photograph 3 of 7');
      await waiting;
      return 'done';
    });
    const next = async () => (await stream.next()).value;
    expect(await next()).toEqual({ type: 'progress', done: 3, total: 7, stage: 'photograph 3 of 7' });
    for (const quietFor of [20, 40]) {
      const told = next();
      await vi.advanceTimersByTimeAsync(20_000);
      expect(await told).toEqual({
        type: 'progress',
        done: 3,
        total: 7,
        stage: 'photograph 3 of 7',
        quietFor,
      });
    }
    const end = next();
    goOn();
    expect(await end).toEqual({ type: 'done', result: 'done' });
    expect(vi.getTimerCount()).toBe(0);
  });
});
