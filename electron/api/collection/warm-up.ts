import { setImmediate as othersTurn } from 'node:timers/promises';
import { listCars } from '../../../db/records/cars/cars.ts';
import { collectionCounts } from '../../../db/records/collection/settings.ts';
import { carFigures } from '../figures/figures.ts';
import { figuresHeld } from '../figures/held-figures.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import { homeView } from './home.ts';

/** So many take some hundredths of a second, for which a page that asks meanwhile has to wait. */
const atOnce = 5;
/** In a larger collection the figures are left until they are asked for. */
const mostCars = 2000;

/**
 * Works out what Home will ask for while the screens are still loading; what goes wrong is
 * told when Home asks.
 */
export const warmUp = async (session: Session): Promise<void> => {
  try {
    await othersTurn();
    await figuresHeld(session);
    await othersTurn();
    const { db } = openOf(session).read;
    if ((await collectionCounts(db)).cars > mostCars) return;
    const cars = await listCars(db);
    for (let i = 0; i < cars.length; i += atOnce) {
      await carFigures(session, cars.slice(i, i + atOnce));
      await othersTurn();
    }
    await homeView(session);
  } catch {
    // No collection is open, or it was closed meanwhile.
  }
};
