import type { Collection } from '../collection.ts';
import { withStorageErrors } from '../errors.ts';
import { rebuildSearch } from '../search/search-index.ts';

/**
 * Rebuilds what can be rebuilt from the rows: every index and the search index, in one transaction.
 * Rows, photographs and backups are not touched. Throws CollectionError 'damaged' where the rows
 * themselves cannot be read.
 */
export const rebuildIndexes = (collection: Collection): Promise<void> =>
  withStorageErrors(collection.dir, () =>
    collection.write.db.transaction().execute(async () => {
      collection.write.sqlite.exec('REINDEX');
      rebuildSearch(collection.write.sqlite);
    }),
  );
