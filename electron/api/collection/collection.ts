import { CollectionError } from '../../../db/errors.ts';
import { listHistory } from '../../../db/history/history.ts';
import { redo as redoLast, undo as undoLast } from '../../../db/history/undo.ts';
import * as inputs from '../inputs.ts';
import { base, needsCollection } from '../session/context.ts';
import { streamed } from '../session/progress.ts';
import type { CollectionState, CollectionSummary, HistoryEntry, HomeView } from '../views.ts';
import { backupProcedures } from './backups.ts';
import { openDemo } from './demo.ts';
import { homeView } from './home.ts';
import { search } from './search.ts';
import { settings } from './settings.ts';
import { summaryOf } from './summary.ts';

const state = base.handler(({ context }): CollectionState => context.session.state());

const create = base
  .input(inputs.createCollection)
  .handler(async ({ context, input }): Promise<CollectionState> => {
    await context.session.create(input.dir ?? context.session.options.defaultDir, input);
    return context.session.state();
  });

const open = base
  .input(inputs.openCollection)
  .handler(async ({ context, input }): Promise<CollectionState> => {
    await context.session.open(input.dir);
    return context.session.state();
  });

const demo = base.handler(({ context, signal }) =>
  streamed<CollectionState>((report, stop) => openDemo(context.session, report, stop), signal),
);

const summary = needsCollection.handler(
  ({ context }): Promise<CollectionSummary> => summaryOf(context.session),
);

const home = needsCollection.handler(({ context }): Promise<HomeView> => homeView(context.session));

const history = needsCollection.handler(
  ({ context }): Promise<HistoryEntry[]> => listHistory(context.db, 100),
);

/** Takes the last action back, or does it again; null where there is none. */
const step = (move: typeof undoLast) =>
  needsCollection.handler(async ({ context }): Promise<{ label: string } | null> => {
    try {
      const { id, label } = await move(context.collection);
      await context.session.changed(id);
      return { label };
    } catch (error) {
      if (error instanceof CollectionError && error.code === 'nothing-to-undo') return null;
      throw error;
    }
  });

export const collection = {
  state,
  create,
  open,
  openDemo: demo,
  summary,
  home,
  history,
  undo: step(undoLast),
  redo: step(redoLast),
  search,
  ...settings,
  ...backupProcedures,
};
