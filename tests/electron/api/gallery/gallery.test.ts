import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { BlobReader, ZipReader } from '@zip.js/zip.js';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { filesBelow } from '../../../../db/archive/bag.ts';
import { layout } from '../../../../db/file/layout.ts';
import { newCollectionService, refusalOf, resultOf } from '../../../helpers/api.ts';
import { heicFile, picture } from '../../../helpers/pictures/pictures.ts';

const list =
  'inventory_number,casting,colour,grade,finish_state,location,notes,price\n' +
  'Q-1,Osmerry <b>,Ember,7,original,Secretplace,Secretnote,77.31\nQ-2,שלום 😀,Ember,4,restored,Secretplace,,77.31\n';

const shelf = async () => {
  const service = await newCollectionService();
  const { api } = service;
  const lot = {
    name: 'Secretlot',
    boughtOn: '2026-01-10',
    seller: 'Secretseller',
    currency: 'USD',
    costs: [{ kind: 'price' as const, minor: 15462 }],
  };
  await resultOf(await api.imports.run({ file: new File([list], 'cars.csv'), as: 'lot', lot }));
  const rows = await api.cars.list({});
  const carId = rows.find(row => row.inventoryNumber === 'Q-2')!.id;
  for (const [state, background] of [
    ['before', '#a33'],
    ['after', '#33a'],
  ] as const)
    await api.photos.add({
      carId,
      view: 'front',
      state,
      files: [new File([new Uint8Array(await picture('jpeg', { background }))], 'x.jpg')],
    });
  await api.cars.saveCheck({ carId, checkedOn: '2026-02-01', grade: 4, notes: 'Secretcheck', parts: [] });
  return service;
};

describe('gallery.make', () => {
  it('says what each car is and what was done, and nothing of values, prices, places and people', async () => {
    const { api, dir } = await shelf();
    const out = join(dir, 'gallery');
    const made = await resultOf(await api.gallery.make({ out, title: 'Shelf' }));
    expect(made).toMatchObject({ out, cars: 2, photographs: 2, warnings: [] });
    const texts = filesBelow(out)
      .filter(name => name.endsWith('.html'))
      .map(name => readFileSync(join(out, name), 'utf8'));
    for (const text of texts) expect(text).not.toMatch(/Secret|77\.31|154\.62|USD/);
    const restored = readFileSync(join(out, 'cars/q-2.html'), 'utf8');
    expect(restored).toContain('Restored: this is not the factory finish.');
    expect(restored).toContain('C4, restored');
    expect(restored).toContain('שלום 😀');
    expect(restored).toContain('class="compare"');
    expect(readFileSync(join(out, 'cars/q-1.html'), 'utf8')).toContain('Osmerry &lt;b&gt;');
    expect(readdirSync(dir).filter(name => name.includes('.part'))).toEqual([]);
  });

  it('shows a HEIC photograph as any other, and the reports do, without its place and camera', async () => {
    const { api, dir } = await shelf();
    const [{ id: carId } = { id: 0 }] = await api.cars.list({});
    await api.photos.add({ carId, files: [new File([new Uint8Array(heicFile('turned'))], 'x.heic')] });
    const { thumbnails } = layout((await api.collection.state()).dir!);
    rmSync(thumbnails, { recursive: true });
    const out = join(dir, 'gallery');
    expect(await resultOf(await api.gallery.make({ out }))).toMatchObject({ photographs: 3, warnings: [] });
    const pictures = filesBelow(out).filter(name => name.endsWith('.jpg'));
    const upright = [];
    for (const name of pictures) {
      const bytes = readFileSync(join(out, name));
      expect(bytes.includes('Quillon camera')).toBe(false);
      const { width, height, exif } = await sharp(bytes).metadata();
      expect(exif).toBeUndefined();
      if (width === 240 && height === 320) upright.push(name);
    }
    expect(upright).toHaveLength(2);
    rmSync(thumbnails, { recursive: true });
    const { warnings } = await resultOf(await api.reports.make({ format: 'pdf' }));
    expect(warnings).toEqual([]);
    expect(existsSync(thumbnails)).toBe(true);
  });

  it('of one car has no other cars to go to, and nothing to look for', async () => {
    const { api, dir } = await newCollectionService();
    await api.cars.create({
      lotId: null,
      cars: [{ inventoryNumber: 'Q-1', asWritten: { casting: 'Osmerry' } }],
    });
    const out = join(dir, 'gallery');
    expect(await resultOf(await api.gallery.make({ out }))).toMatchObject({ cars: 1, photographs: 0 });
    const wall = readFileSync(join(out, 'index.html'), 'utf8');
    expect(wall).toContain('1 car. Its finish is stated on its page.');
    expect(wall).not.toContain('id="find"');
    const page = readFileSync(join(out, 'cars/q-1.html'), 'utf8');
    expect(page).toContain('There is no photograph of it.');
    expect(page).not.toContain('aria-label="Other cars"');
  });

  it('writes a ZIP, never over what is there, and nothing where nothing is to be shown', async () => {
    const { api, dir } = await shelf();
    const out = join(dir, 'gallery.zip');
    await resultOf(await api.gallery.make({ out }));
    const entries = await new ZipReader(new BlobReader(new Blob([readFileSync(out)]))).getEntries();
    expect(entries.map(entry => entry.filename)).toContain('gallery/index.html');
    expect(entries.every(entry => entry.lastModDate.getFullYear() === 1980)).toBe(true);
    expect(await refusalOf(resultOf(await api.gallery.make({ out })))).toMatchObject({
      message: expect.stringContaining('There is something at'),
    });
    const taken = join(dir, 'taken');
    mkdirSync(taken);
    writeFileSync(join(taken, 'mine.txt'), 'mine');
    expect((await refusalOf(resultOf(await api.gallery.make({ out: taken })))).message).toContain(taken);
    expect(readdirSync(taken)).toEqual(['mine.txt']);
    const bare = await newCollectionService();
    const nowhere = join(bare.dir, 'gallery');
    expect(await refusalOf(resultOf(await bare.api.gallery.make({ out: nowhere })))).toMatchObject({
      message: expect.stringContaining('There is no car to show'),
    });
    expect(existsSync(nowhere)).toBe(false);
  });
});
