/** What is done in turn: each begins when the one before it has ended, well or not. */
let last: Promise<unknown> = Promise.resolve();
/** Writes that are on their way to the service. */
const begun = new Set<Promise<unknown>>();
/** What is being taken back, or done again; what is written meanwhile comes after it. */
let takingBack: Promise<unknown> = Promise.resolve();

const ended = (work: Promise<unknown>): Promise<unknown> => work.catch(() => undefined);

/** Does work after all that was asked for before in this way, so that cells are written in the order typed. */
export const inTurn = <Value>(work: () => Promise<Value>): Promise<Value> => {
  const turn = last.then(work);
  last = ended(turn);
  return turn;
};

/** Sends a write to the service. Answers may come in any order; undo counts on what was asked for. */
export const sendWrite = <Value>(write: () => Promise<Value>): Promise<Value> => {
  const sent = takingBack.then(write);
  begun.add(sent);
  void ended(sent).then(() => begun.delete(sent));
  return sent;
};

/** Answers when all writes have ended that are on their way now, well or not: what is asked then knows of them. */
export const whenWritten = async (): Promise<void> => {
  await takingBack;
  await Promise.allSettled(begun);
};

/** Takes back, or does again, after all writes that were asked for before, so that it is the newest that goes. */
export const afterWrites = <Value>(undo: () => Promise<Value>): Promise<Value> =>
  inTurn(() => {
    const undone = Promise.allSettled(begun).then(undo);
    takingBack = ended(undone);
    return undone;
  });
