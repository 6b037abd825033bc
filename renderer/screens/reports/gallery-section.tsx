import { Button, Select, TextInput } from '@mantine/core';
import { type FormEvent, useState } from 'react';
import type { GalleryWritten } from '../../../electron/api/gallery/gallery.ts';
import type { CollectionSummary, LotRow } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { useProgress } from '../../api/use-progress.ts';
import { beside, inFolder } from '../../components/folders/beside.ts';
import { FolderField } from '../../components/folders/folder-field.tsx';
import { counted, readerLocale } from '../../components/format.ts';
import { WorkProgress } from '../../components/notices/work-progress.tsx';
import classes from './reports.module.css';

const Written = ({ result }: { result: GalleryWritten }) => (
  <div className={classes.written}>
    <p>
      <strong>{result.out}</strong>{' '}
      <span className="soft">
        {counted(result.cars, 'car')}, {counted(result.photographs, 'photograph')}
      </span>
    </p>
    <p className="soft">
      {result.out.endsWith('.zip')
        ? 'Unpack it and open index.html, or put the folder on a site.'
        : 'Open index.html in it, or put the folder on a site.'}
    </p>
    {result.warnings.length > 0 ? (
      <ul className="caution">
        {result.warnings.map(warning => (
          <li key={warning}>{warning}</li>
        ))}
      </ul>
    ) : null}
  </div>
);

/** The cars as pages that anybody can open: chosen where, made, told where they lie. */
export const GallerySection = ({ summary, lots }: { summary: CollectionSummary; lots: LotRow[] }) => {
  const name = `gallery-${summary.today}.zip`;
  const [out, setOut] = useState(() => beside(summary.dir, name));
  const [title, setTitle] = useState(summary.name);
  const [lotId, setLotId] = useState<number | null>(null);
  const work = useProgress<GalleryWritten>();
  const running = work.state.is === 'running';
  const make = (event: FormEvent) => {
    event.preventDefault();
    const wanted = { out: out.trim(), title: title.trim(), locale: readerLocale() };
    void work.start(signal => api.gallery.make({ ...wanted, ...(lotId !== null && { lotId }) }, { signal }));
  };
  return (
    <section className={`page ${classes.others}`} aria-labelledby="gallery">
      <h2 id="gallery">Gallery</h2>
      <p className="soft">
        Web pages with your photographs, to open on any computer or put on a site. They say what each car is
        and what was done to it; values, prices, places and people stay here, and pictures go out without what
        the camera wrote into them.
      </p>
      <form className={classes.otherForm} onSubmit={make}>
        <TextInput
          label="Title of the gallery"
          value={title}
          onChange={event => setTitle(event.currentTarget.value)}
        />
        <Select
          label="Cars"
          value={lotId === null ? '' : String(lotId)}
          data={[
            { value: '', label: 'All that are not sold' },
            ...lots.map(lot => ({ value: String(lot.id), label: lot.name })),
          ]}
          allowDeselect={false}
          onChange={value => setLotId(value ? Number(value) : null)}
        />
        <FolderField
          label="Write it to"
          description="A new or empty folder, or a name that ends in .zip"
          value={out}
          onChange={setOut}
          title="Folder for the gallery"
          within={dir => inFolder(dir, name)}
          autoFocus={false}
        />
        <div>
          <Button type="submit" variant="filled" size="sm" loading={running} disabled={!out.trim()}>
            Make the gallery
          </Button>
        </div>
      </form>
      <div className={classes.outcome} aria-live="polite">
        <WorkProgress work={work} label="Making the gallery" />
        {work.state.is === 'done' ? <Written result={work.state.result} /> : null}
      </div>
    </section>
  );
};
