import { counted } from '../reader.ts';
import type { Host, Refusal, SystemRefusal } from './facts.ts';
import { backupFaultText } from './finding-text.ts';

const hostNames: Record<Host, string> = {
  window: 'the window',
  browser: 'browser mode',
  'command line': 'the command line',
};

const acceptedPhotographs = 'Accepted are JPEG, HEIC, PNG, WebP, TIFF, AVIF and GIF.';

const fileText = ({ path, fault }: Refusal & { kind: 'file' }): string => {
  switch (fault.kind) {
    case 'empty':
      return `${path} is empty: its contents are gone. Restore a backup.`;
    case 'overwritten':
      return `${path} is not a readable database: its beginning is overwritten or cut off. Restore a backup.`;
    case 'cut-short':
      return `${path} is cut short: ${fault.bytes} of ${fault.expectedBytes} bytes are left. Restore a backup.`;
    case 'structure':
      return `${path} is damaged (${fault.detail}). Restore a backup.`;
    case 'foreign-wal':
      return `${path} was not left there by this collection and could replace its content. Nothing was changed. If the collection was copied, copy its whole folder again; otherwise move that file away.`;
    case 'symbolic-link':
      return `${path} is a link to ${fault.target}. Nothing was changed. Open the folder that holds the file itself; or put the file itself, with the files beside it, in place of the link.`;
    case 'hard-links':
      return `${path} is the same file as another one elsewhere (a hard link; it has ${fault.names} names), and what is written through one could be lost through the other. Nothing was changed. Put a copy of the file in its place, or remove the other name.`;
    case 'obstructed':
      return `${path} is ${fault.expected === 'file' ? 'not a file' : 'not a folder'}, and Playworn needs a ${fault.expected} there. Move it away, then try again.`;
  }
};

const systemText = ({ kind, place }: SystemRefusal): string => {
  switch (kind) {
    case 'disk-full':
      return `The disk that holds ${place} is full. Nothing was changed. Free some space (older ones in its backups folder may go), then try again.`;
    case 'not-writable':
      return `${place} cannot be written. Nothing was changed. Allow writing to the folder, or move the collection to one that can be written.`;
    case 'damaged':
      return `${place} is damaged. Restore a backup; the present state will be saved beside it.`;
    case 'in-use':
      return `${place} is in use by another program. Close that program, then try again.`;
    case 'disk-error':
      return `The disk reported an error while ${place} was read or written. Check the disk, then open the collection again.`;
    case 'in-the-way':
      return `In ${place} there is a folder where a file belongs, or a file where a folder belongs. Move it away, then try again.`;
  }
};

/** What was refused and what to do about it, in a sentence or more. */
export const refusalText = (refusal: Refusal): string => {
  switch (refusal.kind) {
    case 'no-collection':
      return `There is no collection at ${refusal.place}. Create one, or choose another folder.`;
    case 'collection-exists':
      return `There is already a collection in ${refusal.place}. Open it, or choose another folder.`;
    case 'closed':
      return `The collection in ${refusal.place} has been closed. Open it again.`;
    case 'no-database':
      return `There is no collection.sqlite in ${refusal.place} to set aside.`;
    case 'needs-restoring':
      return `The collection in ${refusal.dir} needs restoring: collection.sqlite is gone, and ${refusal.backups === 1 ? 'a backup of it is' : `${refusal.backups} backups of it are`} there. Nothing was changed. Restore a backup ("playworn restore --collection DIR" brings back the newest), or choose another folder.`;
    case 'file':
      return fileText(refusal);
    case 'foreign':
      return `${refusal.path} is not a Playworn collection. Nothing was changed. Choose another folder, or move that file away.`;
    case 'newer':
      return `${refusal.path} was made by a newer version of Playworn (schema ${refusal.schema}; this version knows ${refusal.known}). Nothing was changed. Update Playworn to open it.`;
    case 'not-a-lock':
      return `${refusal.path} is not a lock that Playworn made: something else wrote into it. The collection itself was not touched. Move that file away, then open the collection again.`;
    case 'held': {
      const { holder } = refusal;
      const who = holder
        ? `${hostNames[holder.host]} (process ${holder.pid}, since ${holder.since})`
        : 'another program';
      return `The collection in ${refusal.dir} is already open in ${who}. Close it there first.`;
    }
    case 'disk-full':
    case 'not-writable':
    case 'damaged':
    case 'in-use':
    case 'disk-error':
    case 'in-the-way':
      return systemText(refusal);
    case 'folder-not-made':
      return `The folder ${refusal.path} cannot be made there. Choose another place.`;
    case 'broken-migration':
      return `${counted(refusal.rows, 'row')} would point at nothing after the migration`;
    case 'old-runtime':
      return `A collection needs Node 22.14 or newer; this is Node ${refusal.node}. Start with "npm start" or "npx playworn", which bring their own.`;
    case 'no-backup':
      return `There is no backup ${refusal.name} in ${refusal.folder}. Choose one from the list.`;
    case 'damaged-backup':
      return `The backup ${refusal.name} is damaged: ${backupFaultText(refusal.fault)}. Nothing was changed. Choose another backup.`;
    case 'backup-not-made':
      return `The backup was not made: its copy did not read back as it was written (${refusal.differing}). Check the collection, and the disk.`;
    case 'backup-gone':
      return `The backup ${refusal.name} was made and is gone again. Check the disk.`;
    case 'no-archive':
      return `There is no archive at ${refusal.path}.`;
    case 'name-taken':
      return `There is something at ${refusal.path} already. Choose another name.`;
    case 'folder-not-empty':
      return `${refusal.path} is not empty. Choose a new folder for the collection.`;
    case 'unreadable-archive':
      return `${refusal.path} cannot be read as an archive: ${refusal.zip ? 'it is cut short or damaged' : 'it is not a ZIP file'}.`;
    case 'newer-archive':
      return `This archive was made by a newer version of Playworn (schema ${refusal.schema}). Nothing was changed. Update Playworn to take it back.`;
    case 'archive-without-database':
      return `No collection can be recovered from ${refusal.path}: neither its database nor its tables are complete. Missing or damaged: ${refusal.files.join(', ')}.`;
    case 'photo-empty':
      return 'The file is empty.';
    case 'photo-heic':
      return 'This HEIC photograph is of a kind that cannot be read here. Export it as JPEG on the phone or the computer, then add that.';
    case 'photo-drawing':
      return `This is a drawing (SVG) and not a photograph. ${acceptedPhotographs}`;
    case 'photo-unknown':
      return `This is not a photograph that can be read. ${acceptedPhotographs}`;
    case 'photo-unreadable':
      return 'The photograph is damaged or cut short and cannot be read.';
    case 'photo-too-large':
      return `The photograph has ${refusal.width} × ${refusal.height} pixels; the most is ${refusal.mostPixels / 1e6} million. Add a smaller copy of it.`;
    case 'photo-missing':
      return `The photograph ${refusal.sha256.slice(0, 8)} is missing from ${refusal.folder}. Put it back from a copy of the folder, or add it again.`;
    case 'photo-altered':
      return `The photograph ${refusal.path} is not the one that was added: it was altered or damaged. Put it back from a copy, or add it again.`;
    case 'nothing-to-undo':
      return 'There is nothing to undo.';
    case 'nothing-to-redo':
      return 'There is nothing to redo.';
  }
};

/** What the owner is told of a collection that could only be opened for reading. */
export const onlyReadText = (because: Refusal): string =>
  `This collection can be read but not changed. ${refusalText(because)}`;
