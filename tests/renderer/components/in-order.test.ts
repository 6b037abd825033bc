import { describe, expect, it } from 'vitest';
import {
  afterWrites,
  inTurn,
  sendWrite,
  whenWritten,
} from '../../../renderer/components/actions/in-order.ts';

/** Work that ends when it is told to, and says when it begins. */
const told = (begun: string[], name: string) => {
  const { promise, resolve, reject } = Promise.withResolvers<void>();
  return {
    work: () => {
      begun.push(name);
      return promise;
    },
    end: resolve,
    fail: () => reject(new Error(name)),
  };
};

const turns = () => new Promise(resolve => setTimeout(resolve, 0));

describe('writes and undo', () => {
  it('come in the order in which they were asked for, whatever fails', async () => {
    const begun: string[] = [];
    const [cell, next, form] = ['cell', 'next', 'form'].map(name => told(begun, name));
    const [undo, late] = ['undo', 'late'].map(name => told(begun, name));
    if (!cell || !next || !form || !undo || !late) throw new Error('unreachable');
    const failed = expect(inTurn(() => sendWrite(cell.work))).rejects.toThrow('cell');
    const cells = inTurn(() => sendWrite(next.work));
    const forms = sendWrite(form.work);
    const undone = afterWrites(undo.work);
    await turns();
    expect(begun).toEqual(['form', 'cell']);
    cell.fail();
    await failed;
    await turns();
    expect(begun).toEqual(['form', 'cell', 'next']);
    next.end();
    await cells;
    await turns();
    expect(begun).toEqual(['form', 'cell', 'next']);
    form.end();
    await forms;
    await turns();
    expect(begun).toEqual(['form', 'cell', 'next', 'undo']);
    const written = sendWrite(late.work);
    await turns();
    expect(begun).toHaveLength(4);
    undo.end();
    await undone;
    await turns();
    expect(begun.at(-1)).toBe('late');
    late.end();
    await written;
  });

  it('are waited for by what must know of them, whether they succeed or fail', async () => {
    const begun: string[] = [];
    const [good, bad] = ['good', 'bad'].map(name => told(begun, name));
    if (!good || !bad) throw new Error('unreachable');
    const written = sendWrite(good.work);
    const failed = expect(sendWrite(bad.work)).rejects.toThrow('bad');
    let isDone = false;
    const done = whenWritten().then(() => {
      isDone = true;
    });
    good.end();
    await written;
    await turns();
    expect(isDone).toBe(false);
    bad.fail();
    await failed;
    await done;
    expect(isDone).toBe(true);
  });
});
