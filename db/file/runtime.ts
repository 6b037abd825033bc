import { CollectionError } from '../errors.ts';

/** What this check needs to know of `process.versions`. */
interface RuntimeVersions {
  node: string;
  modules?: string;
  napi?: string;
}

/** The Node-API level the database's binary was built for; Node has it from 22.14 on. */
const neededNodeApi = 10;

/**
 * Throws CollectionError 'old-runtime' when the database's binary cannot run here. On too old a runtime
 * loading it ends the process without a word, so this runs before the first database is opened.
 */
export const checkRuntime = (versions: RuntimeVersions = process.versions): void => {
  if (Number(versions.napi ?? 0) >= neededNodeApi) return;
  throw new CollectionError({ kind: 'old-runtime', node: versions.node });
};
