import { cars } from './cars.ts';
import { collection } from './collection.ts';
import { decisions } from './decisions.ts';
import { imports } from './imports.ts';
import { lots } from './lots.ts';
import { photos } from './photos.ts';
import { reference } from './reference.ts';
import { reports } from './reports.ts';
import { sales } from './sales.ts';
import { worth } from './worth.ts';

/** Every procedure, by subject. One router serves the window, the browser and the command line. */
export const router = {
  collection,
  lots,
  cars,
  photos,
  reference,
  sales,
  worth,
  decisions,
  imports,
  reports,
};

export type AppRouter = typeof router;
