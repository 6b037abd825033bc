/**
 * Loaded by Node before a host (`--import`), makes it answer as on a slow machine: each answer is held for
 * 300 to 2,000 ms, drawn from the seed in TEST_SLOW. What is asked is dealt with at once and in its order;
 * only its answer comes late, so that answers may overtake each other as they do on a busy machine.
 */
import { Server } from 'node:http';

const least = 300;
const most = 2000;

let state = Number(process.env.TEST_SLOW) >>> 0;
/** Uniform in 0…1 (mulberry32, as in random.ts, which a host cannot load before its own code). */
const uniform = () => {
  state = (state + 0x6d2b79f5) >>> 0;
  let t = state;
  t = Math.imul(t ^ (t >>> 15), t | 1);
  t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
};

const hold = response => {
  const waiting = [];
  let late = true;
  for (const name of ['writeHead', 'write', 'end']) {
    const real = response[name].bind(response);
    response[name] = (...given) => {
      if (!late) return real(...given);
      waiting.push(() => real(...given));
      return name === 'write' ? true : response;
    };
  }
  setTimeout(
    () => {
      late = false;
      for (const go of waiting) go();
    },
    least + (most - least) * uniform(),
  );
};

const { emit } = Server.prototype;
Server.prototype.emit = function (event, ...given) {
  if (event === 'request') hold(given[1]);
  return emit.call(this, event, ...given);
};
