import { QueryClient, QueryObserver } from '@tanstack/react-query';
import { describe, expect, it } from 'vitest';
import { askEverythingAgain, askOnlyAgain } from '../../../renderer/api/query-client.ts';

const client = () =>
  new QueryClient({
    defaultOptions: { queries: { staleTime: Number.POSITIVE_INFINITY, retry: false, networkMode: 'always' } },
  });

/** A service that answers with what is written at the moment of the question, each answer when it is let go. */
const lateService = (written: () => string) => {
  const waiting: (() => void)[] = [];
  const ask = () => {
    const answer = written();
    return new Promise<string>(resolve => waiting.push(() => resolve(answer)));
  };
  /** Lets the answers go, those too that are asked for meanwhile, until nothing is asked any more. */
  const answerAll = async (work: Promise<void>) => {
    let done = false;
    void work.then(() => {
      done = true;
    });
    while (!done) {
      for (const go of waiting.splice(0)) go();
      await new Promise(resolve => setImmediate(resolve));
    }
  };
  return { ask, answerAll };
};

describe('after a write', () => {
  it('an answer from before it, still on its way, is not taken for the last word', async () => {
    let written = 'before';
    const { ask, answerAll } = lateService(() => written);
    const queries = client();
    const observer = new QueryObserver(queries, { queryKey: ['definitions'], queryFn: ask });
    const stop = observer.subscribe(() => undefined);
    const ahead = queries.fetchQuery({ queryKey: ['fetched ahead'], queryFn: ask });
    written = 'after';
    await answerAll(askEverythingAgain(queries));
    expect(observer.getCurrentResult().data).toBe('after');
    // What nobody shows yet is asked when it is shown; whoever waits for it is not turned away.
    expect(await ahead).toBe('before');
    expect(queries.getQueryState(['fetched ahead'])?.isInvalidated).toBe(true);
    stop();
  });

  it('of a few subjects the others stay as they are', async () => {
    let written = 'before';
    const { ask, answerAll } = lateService(() => written);
    const queries = client();
    const observers = ['kept', 'history'].map(
      subject => new QueryObserver(queries, { queryKey: [subject, 1], queryFn: ask }),
    );
    const stops = observers.map(observer => observer.subscribe(() => undefined));
    written = 'after';
    await answerAll(askOnlyAgain(queries, 'kept'));
    expect(observers.map(observer => observer.getCurrentResult().data)).toEqual(['after', 'before']);
    for (const stop of stops) stop();
  });
});
