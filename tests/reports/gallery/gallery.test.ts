import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, it, onTestFinished } from 'vitest';
import { type GalleryCar, galleryPairs, pageNames } from '../../../reports/gallery/gallery.ts';
import { html } from '../../../reports/gallery/html.ts';
import { writeGallery } from '../../../reports/gallery/write-gallery.ts';
import { telephonePicture } from '../../helpers/pictures/pictures.ts';

const folder = () => {
  const dir = mkdtempSync(join(tmpdir(), 'playworn-test-'));
  onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
  return dir;
};

const car = (inventoryNumber: string, more: Partial<GalleryCar> = {}): GalleryCar => ({
  inventoryNumber,
  name: 'Osmerry',
  series: null,
  colour: 'Ember',
  swatch: '#cc4422',
  condition: 'C7, original',
  statement: 'This car has its factory finish.',
  disclosed: false,
  facts: [],
  parts: [],
  photos: [],
  ...more,
});

const photo = (path: string, view = 'front', state = '') => ({
  path,
  view,
  state,
  caption: '',
  takenOn: null,
});

describe('the gallery', () => {
  it('writes what a person wrote as text, never as markup', () => {
    const { markup } = html`<p title="${'" onload="x'}">${'<script>1</script>'}${html`<b>${'&'}</b>`}</p>`;
    expect(markup).toBe('<p title="&quot; onload=&quot;x">&lt;script&gt;1&lt;/script&gt;<b>&amp;</b></p>');
  });

  it('gives each car a page of its own, whatever its number', () => {
    const names = pageNames(['Q-1', 'Q 1', 'שלום', '😀', 'Ä/../1'].map(number => car(number)));
    expect(names).toEqual(['q-1', 'q-1-n2', 'car-n3', 'car-n4', 'a-1']);
    expect(new Set(names).size).toBe(names.length);
  });

  it('lays the first before against the last after of a view', () => {
    const photos = [
      photo('a', 'front', 'before'),
      photo('b', 'rear', 'before'),
      photo('c', 'front', 'after'),
      photo('d', 'front', 'after'),
    ];
    expect(galleryPairs(photos)).toEqual([{ before: photos[0], after: photos[3] }]);
  });

  it('sends pictures out upright, without place and camera, and says what it could not show', async () => {
    const from = folder();
    const camera = join(from, 'camera.jpg');
    writeFileSync(camera, await telephonePicture());
    const broken = join(from, 'broken.jpg');
    writeFileSync(broken, 'no picture');
    const cars = [car('Q-1', { photos: [photo(camera), photo(broken)] }), car('Q-2')];
    const write = async () => {
      const out = folder();
      return { out, made: await writeGallery({ title: 'Shelf', locale: 'en-US', cars }, out) };
    };
    const { out, made } = await write();
    expect(made).toMatchObject({ cars: 2, photographs: 1 });
    expect(made.warnings).toEqual([expect.stringMatching(/^Q-1: photograph left out/)]);
    expect(readdirSync(join(out, 'pictures')).sort()).toEqual(['q-1-1-small.jpg', 'q-1-1.jpg']);
    for (const name of readdirSync(join(out, 'pictures'))) {
      const bytes = readFileSync(join(out, 'pictures', name));
      expect(bytes.includes('Exif')).toBe(false);
      expect(bytes.includes('Quillon camera')).toBe(false);
      const { width, height } = await sharp(bytes).metadata();
      expect(height).toBeGreaterThan(width);
    }
    const again = await write();
    for (const name of ['index.html', 'cars/q-1.html', 'cars/q-2.html', 'pictures/q-1-1.jpg'])
      expect(readFileSync(join(again.out, name)).equals(readFileSync(join(out, name)))).toBe(true);
    expect(readFileSync(join(out, 'cars/q-2.html'), 'utf8')).toContain('There is no photograph of it.');
  });
});
