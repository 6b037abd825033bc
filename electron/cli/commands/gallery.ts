import { resolve } from 'node:path';
import { counted } from '../../../valuation/wording/reader.ts';
import type { GalleryWritten } from '../../api/gallery/gallery.ts';
import { withCollection } from '../collection.ts';
import { lotNamed } from '../named.ts';
import { followed } from '../progress-bar.ts';
import { print, say } from '../terminal.ts';

interface GalleryOptions {
  collection: string;
  out: string;
  title?: string;
  lot?: string;
  json?: boolean;
}

/** `playworn gallery`: the cars as pages that anybody can open, without values, places or people. */
export const gallery = async (options: GalleryOptions): Promise<void> =>
  withCollection(options, async ({ api, signal }) => {
    const { title, lot } = options;
    const made = await followed<GalleryWritten>(
      await api.gallery.make(
        {
          out: resolve(options.out),
          ...(title !== undefined && { title }),
          ...(lot !== undefined && { lotId: await lotNamed(api, lot) }),
        },
        { signal },
      ),
    );
    for (const warning of made.warnings) say(warning);
    print(options.json, made, ({ out, cars, photographs, bytes }) => [
      `${out}, ${counted(cars, 'car')}, ${counted(photographs, 'photograph')}, ${bytes} bytes`,
    ]);
  });
