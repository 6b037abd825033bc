/** Linear light, one channel each. */
export interface Light {
  r: number;
  g: number;
  b: number;
}

const smooth = (from: number, to: number, x: number): number => {
  const t = Math.min(1, Math.max(0, (x - from) / (to - from)));
  return t * t * (3 - 2 * t);
};

/**
 * Brightness of the studio in a direction: paper below, a dark room behind the camera, a large softbox above
 * it that is brightest at its upper edge, and, seen by clear coat alone, two bare tubes. `up` is the sine of
 * the elevation, `side` and `front` the other parts of the direction.
 */
const studio = (up: number, side: number, front: number, tubes: boolean): number => {
  const azimuth = Math.atan2(side, front);
  const facing = smooth(2.5, 1.3, Math.abs(azimuth));
  if (up < 0) {
    // Paper: lit well, but for the shadow that the car itself throws at its feet.
    const near = smooth(-0.99, -0.7, up);
    return 0.035 + smooth(-0.04, -0.4, up) * (0.06 + 0.5 * near) * (0.35 + 0.65 * facing);
  }
  const room = 0.03 + 0.2 * smooth(0.08, 0.5, up);
  const reach = smooth(1.5, 1.15, Math.abs(azimuth + 0.1));
  const box = smooth(0.47, 0.54, up) * smooth(0.965, 0.92, up) * reach * (0.42 + 0.9 * smooth(0.5, 0.93, up));
  const overhead = 0.5 * smooth(0.95, 0.99, up);
  let light = room * (0.5 + 0.5 * facing) + 2.2 * box * (0.75 + 0.25 * Math.cos(azimuth * 1.2)) + overhead;
  if (tubes) {
    const long = smooth(0.05, 0.022, Math.abs(up - 0.8)) * smooth(1.25, 1.0, Math.abs(azimuth + 0.15));
    const short = smooth(0.03, 0.012, Math.abs(up - 0.62)) * smooth(0.75, 0.55, Math.abs(azimuth + 0.35));
    light = light * 0.55 + 13 * long + 5 * short;
  }
  return light;
};

const steps = 192;

/** A table of the studio over the normal's two parts, sharp or seen in metal that scatters. */
export class StudioTable {
  readonly #table: Float32Array;

  constructor(scatter: number, tubes = false) {
    this.#table = new Float32Array((steps + 1) * (steps + 1));
    const offsets = scatter === 0 ? [0] : [-1, -0.6, -0.25, 0, 0.25, 0.6, 1];
    for (let j = 0; j <= steps; j++)
      for (let i = 0; i <= steps; i++) {
        let sum = 0;
        let weight = 0;
        for (const dy of offsets)
          for (const dx of offsets) {
            const w = Math.exp(-1.4 * (dx * dx + dy * dy));
            sum +=
              w *
              lookAlong((i / steps) * 2 - 1 + dx * scatter * 0.5, (j / steps) * 2 - 1 + dy * scatter, tubes);
            weight += w;
          }
        this.#table[j * (steps + 1) + i] = sum / weight;
      }
  }

  /** Light mirrored toward the camera by a surface whose normal has these parts to the right and up. */
  at(nx: number, ny: number): number {
    const gx = Math.min(steps - 0.001, Math.max(0, (nx + 1) * 0.5 * steps));
    const gy = Math.min(steps - 0.001, Math.max(0, (ny + 1) * 0.5 * steps));
    const i = gx | 0;
    const j = gy | 0;
    const tx = gx - i;
    const ty = gy - j;
    const k = j * (steps + 1) + i;
    const t = this.#table;
    const low = t[k]! * (1 - tx) + t[k + 1]! * tx;
    const high = t[k + steps + 1]! * (1 - tx) + t[k + steps + 2]! * tx;
    return low * (1 - ty) + high * ty;
  }
}

const lookAlong = (nx: number, ny: number, tubes: boolean): number => {
  const length = Math.hypot(nx, ny);
  const limit = length > 0.9999 ? 0.9999 / length : 1;
  const x = nx * limit;
  const y = ny * limit;
  const z = Math.sqrt(1 - x * x - y * y);
  return studio(2 * z * y, 2 * z * x, 2 * z * z - 1, tubes);
};

export interface StudioTables {
  sharp: StudioTable;
  satin: StudioTable;
  matt: StudioTable;
}

/** The studio as clear coat, metal under lacquer, and dull surfaces mirror it. */
export const studioTables = (): StudioTables => ({
  sharp: new StudioTable(0, true),
  satin: new StudioTable(0.2),
  matt: new StudioTable(0.5),
});

/** `#rrggbb` as linear light, 0 … 1 a channel (sRGB transfer function, IEC 61966-2-1). */
export const toLinear = (hex: string): Light => {
  const channel = (i: number) => {
    const value = Number.parseInt(hex.slice(i, i + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return { r: channel(1), g: channel(3), b: channel(5) };
};

const gammaSteps = 4096;
const gamma = Uint8Array.from({ length: gammaSteps + 1 }, (_, i) => {
  const value = i / gammaSteps;
  return Math.round(255 * (value <= 0.0031308 ? value * 12.92 : 1.055 * value ** (1 / 2.4) - 0.055));
});

/** A linear channel as a byte, with the brightest light rolled off as film does. */
export const toByte = (linear: number): number => {
  const x = linear <= 0 ? 0 : linear < 0.6 ? linear : 0.6 + 0.4 * (1 - Math.exp(-(linear - 0.6) / 0.4));
  return gamma[(x * gammaSteps) | 0]!;
};
