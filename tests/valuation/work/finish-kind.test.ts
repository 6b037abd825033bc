import { expect, it } from 'vitest';
import { finishedApart, finishKind } from '../../../valuation/work/finish-kind.ts';

it.each([
  ['candy lacquer', 'lacquer'],
  ['Metallic blue', 'lacquer'],
  ['enamel', 'enamel'],
  ['bright plate', 'plate'],
  ['Chrome', 'plate'],
  ['vacuum plate under clear lacquer', 'plate'],
  ['polished bare zinc', 'bare'],
  ['', 'unknown'],
  ['as usual', 'unknown'],
] as const)('%j is %s', (words, kind) => {
  expect(finishKind(words)).toBe(kind);
});

it('tells a roof that is finished apart', () => {
  for (const words of ['', 'body colour', 'Body color', 'matching', 'none', 'open'])
    expect(finishedApart(words)).toBe(false);
  for (const words of ['black', 'textured black']) expect(finishedApart(words)).toBe(true);
});
