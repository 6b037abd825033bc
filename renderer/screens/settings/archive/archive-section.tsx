import { Button, Checkbox } from '@mantine/core';
import { type FormEvent, useState } from 'react';
import { useLocation } from 'wouter';
import type { ArchiveCheck, ArchiveMade, TakenBackView } from '../../../../electron/api/archive/archive.ts';
import type { CollectionSummary } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { errorSentence } from '../../../api/error-sentence.ts';
import { useEntry } from '../../../api/use-entry.ts';
import { useProgress } from '../../../api/use-progress.ts';
import { beside, inFolder } from '../../../components/folders/beside.ts';
import { FolderField } from '../../../components/folders/folder-field.tsx';
import { counted } from '../../../components/format.ts';
import { Section } from '../../../components/layout/section.tsx';
import { WorkProgress } from '../../../components/notices/work-progress.tsx';
import classes from '../settings.module.css';

const Findings = ({ sentences }: { sentences: string[] }) => (
  <ul className={`${classes.archiveFindings} caution`}>
    {sentences.map(sentence => (
      <li key={sentence}>{sentence}</li>
    ))}
  </ul>
);

const Make = ({ summary }: { summary: CollectionSummary }) => {
  const name = `archive-${summary.today}.zip`;
  const [out, setOut] = useState(() => beside(summary.dir, name));
  const [withReport, setWithReport] = useState(true);
  const work = useProgress<ArchiveMade>();
  const make = (event: FormEvent) => {
    event.preventDefault();
    void work.start(signal => api.archive.make({ out: out.trim(), withReport }, { signal }));
  };
  return (
    <form className={classes.archive} aria-label="Make an archive" onSubmit={make}>
      <h3>Make an archive</h3>
      <FolderField
        label="Write the archive to"
        description="A name that ends in .zip, or a new folder"
        value={out}
        onChange={setOut}
        title="Folder for the archive"
        within={dir => inFolder(dir, name)}
        autoFocus={false}
      />
      <Checkbox
        label="With a report of the collection as it is now"
        checked={withReport}
        onChange={event => setWithReport(event.currentTarget.checked)}
      />
      <div>
        <Button type="submit" disabled={!out.trim()} loading={work.state.is === 'running'}>
          Make the archive
        </Button>
      </div>
      <div aria-live="polite">
        <WorkProgress work={work} label="Making the archive" />
        {work.state.is === 'done' ? (
          <>
            <p>
              The archive is written: {counted(work.state.result.files, 'file')},{' '}
              {Math.max(1, Math.round(work.state.result.bytes / 1_000_000)).toLocaleString()} MB.
            </p>
            {work.state.result.missingPhotos.length > 0 ? (
              <p className="caution">
                {counted(work.state.result.missingPhotos.length, 'photograph')} of your cars could not be
                found in the photo folder, and so the archive is without.
              </p>
            ) : null}
          </>
        ) : null}
      </div>
    </form>
  );
};

const Restored = ({ result, dir }: { result: TakenBackView; dir: string }) => {
  const [, navigate] = useLocation();
  const opening = useEntry(
    () => api.collection.open({ dir }),
    () => navigate('/'),
  );
  return (
    <>
      <p>
        {result.said} {counted(result.photos, 'photograph')} came back.
      </p>
      <Findings sentences={result.sentences} />
      <Button variant="filled" loading={opening.isPending} onClick={() => opening.mutate()}>
        Open the restored collection
      </Button>
      {opening.error ? (
        <p className="harm" role="alert">
          {errorSentence(opening.error)}
        </p>
      ) : null}
    </>
  );
};

const Restore = ({ summary }: { summary: CollectionSummary }) => {
  const [archive, setArchive] = useState('');
  const [dir, setDir] = useState(() => beside(summary.dir, 'restored-collection'));
  const checking = useProgress<ArchiveCheck>();
  const restoring = useProgress<TakenBackView>();
  const busy = checking.state.is === 'running' || restoring.state.is === 'running';
  const check = () => {
    restoring.reset();
    void checking.start(signal => api.archive.check({ archive: archive.trim() }, { signal }));
  };
  const restore = (event: FormEvent) => {
    event.preventDefault();
    checking.reset();
    void restoring.start(signal =>
      api.archive.unpack({ archive: archive.trim(), dir: dir.trim() }, { signal }),
    );
  };
  return (
    <form className={classes.archive} aria-label="Check or restore an archive" onSubmit={restore}>
      <h3>Check or restore an archive</h3>
      <FolderField
        label="Archive"
        description="The .zip file or the folder, written in full"
        value={archive}
        onChange={setArchive}
        title="Folder of the archive"
        autoFocus={false}
      />
      <FolderField
        label="Restore it to"
        description="A new folder: the collection that is open now stays as it is"
        value={dir}
        onChange={setDir}
        title="Folder for the restored collection"
        within={chosen => inFolder(chosen, 'restored-collection')}
        autoFocus={false}
      />
      <div className={classes.archiveActions}>
        <Button disabled={!archive.trim() || busy} onClick={check}>
          Check it
        </Button>
        <Button type="submit" disabled={!archive.trim() || !dir.trim() || busy}>
          Restore it
        </Button>
      </div>
      <div aria-live="polite">
        <WorkProgress work={checking} label="Checking the archive" />
        <WorkProgress work={restoring} label="Restoring the archive" />
        {checking.state.is === 'done' ? (
          checking.state.result.findings.length === 0 ? (
            <p>All {counted(checking.state.result.files, 'file')} are as they were archived.</p>
          ) : (
            <Findings sentences={checking.state.result.sentences} />
          )
        ) : null}
        {restoring.state.is === 'done' ? <Restored result={restoring.state.result} dir={dir.trim()} /> : null}
      </div>
    </form>
  );
};

/** The whole collection as one file for another computer or for later: made, checked, restored. */
export const ArchiveSection = ({ summary }: { summary: CollectionSummary }) => (
  <Section id="archive" title="Archive">
    <p className={classes.lead}>
      An archive holds everything: the database, every table as plain text, all photographs as they were
      added, and checksums that tell whether a file of it has changed. It can be read without Playworn, too
      (it is a BagIt bag, RFC 8493).
    </p>
    <Make summary={summary} />
    <Restore summary={summary} />
  </Section>
);
