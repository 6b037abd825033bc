import { cars } from './cars.ts';
import { collection } from './collection.ts';
import { lots } from './lots.ts';
import { reference } from './reference.ts';
import { sales } from './sales.ts';

/** Every procedure, by subject. One router serves the window, the browser and the command line. */
export const router = { collection, lots, cars, reference, sales };

export type AppRouter = typeof router;
