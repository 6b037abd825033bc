/**
 * Opens a collection as the service does, uses it, and prints its resident memory in bytes: when it has come to rest, and the
 * most there was. Run by `memory.ts`, built as the service is.
 */
import '../../electron/service/small-heap.ts';
import { existsSync, readFileSync } from 'node:fs';
import { restsAfter } from '../../electron/api/session/large-heap.ts';
import { serviceOn } from './service-on.ts';

/** The most that was resident, in bytes; null where Linux does not tell it. What `resourceUsage` tells holds its parent's too. */
const most = (): number | null => {
  const status = '/proc/self/status';
  const told = existsSync(status) ? /^VmHWM:\s*(\d+) kB$/m.exec(readFileSync(status, 'utf8')) : null;
  return told ? Number(told[1]) * 1024 : null;
};

const use = async (dir: string): Promise<void> => {
  const { session, api } = serviceOn(dir);
  await api.collection.open({ dir });
  await api.collection.home();
  const any = {
    ...{ lots: [], series: [], finish: [], grade: [], status: [], recommendation: [], rarity: [] },
    ...{ casting: null, variation: null, show: null, text: '' },
  };
  for (let i = 0; i < 5; i++) {
    const sort =
      i === 0 ? null : { columnId: ['number', 'name', 'found', 'gain'][i - 1]!, descending: false };
    const list = { filter: any, order: { sort, since: '', locale: 'en-GB' }, wall: false };
    await api.cars.window({ ...list, from: 1000 * i, count: 128 });
    await api.cars.facts(any);
  }
  for (const text of ['q', 'ruby', 'bent axle', 'harrow 1']) await api.collection.search({ text, limit: 20 });
  await new Promise(resolve => setTimeout(resolve, restsAfter + 3000));
  console.log(JSON.stringify([process.memoryUsage().rss, most()]));
  await session.close();
};

use(process.argv[2]!);
