import { readFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';

/** The documents folder of the desktop's own settings file, as freedesktop.org's user directories name it. */
const documentsOnLinux = (home: string): string | null => {
  try {
    const settings = readFileSync(
      join(process.env.XDG_CONFIG_HOME || join(home, '.config'), 'user-dirs.dirs'),
      'utf8',
    );
    const written = /^XDG_DOCUMENTS_DIR="([^"]+)"/m.exec(settings)?.[1];
    const place = written?.replace(/^\$HOME/, home).replace(/\/$/, '');
    return place && place !== home ? place : null;
  } catch {
    return null;
  }
};

/**
 * Where collections lie unless another folder is named: the same answer in the window, the browser and
 * the command line.
 */
export const collectionPlaces = () => {
  const home = homedir();
  const documents = (process.platform === 'linux' && documentsOnLinux(home)) || join(home, 'Documents');
  return { defaultDir: join(documents, 'Playworn'), demoDir: join(documents, 'Playworn demo') };
};
