import { randomFrom } from '../../random.ts';
import { pngAddress } from '../png.ts';
import type { CarSpec } from '../spec.ts';
import type { Surface } from './body-surface.ts';
import { mix } from './colour-mixing.ts';
import { bodyColour, roofColour } from './finish.ts';
import { type Light, type StudioTables, toByte, toLinear } from './lighting.ts';
import { texel } from './noise.ts';
import type { Palette } from './palette.ts';

type Coat = 'lacquer' | 'enamel' | 'plate' | 'zinc' | 'matt';

interface Material {
  coat: Coat;
  light: Light;
  /** 0 dull … 1 fresh. */
  gloss: number;
}

const tintSteps = 64;

/**
 * Lacquer's colour by how squarely the surface faces the camera: light crosses the tint twice, and farther
 * where the surface turns away. Three channels for each step.
 */
const tintTable = (light: Light): Float32Array => {
  const table = new Float32Array((tintSteps + 1) * 3);
  for (let i = 0; i <= tintSteps; i++) {
    const depth = 1.02 + 0.55 * (1 - i / tintSteps);
    table.set(
      [light.r ** depth, light.g ** depth, light.b ** depth].map(value => value * 1.25),
      i * 3,
    );
  }
  return table;
};

/** Pixels for one hundredth of the length in a photograph of one car. */
const usualScale = 10.3;

const zincLight = toLinear('#b7b9b8');

const glossOf = ({ grade, finishState }: CarSpec): number =>
  finishState === 'restored' || finishState === 'customised'
    ? 1
    : Math.max(0.12, Math.min(1, 0.05 + (grade / 10) ** 1.5 * 0.95));

const bodyMaterial = (spec: CarSpec): Material => {
  const gloss = glossOf(spec);
  if (spec.finishState === 'stripped') return { coat: 'zinc', light: zincLight, gloss: 0.3 };
  if (spec.finishState === 'customised') return { coat: 'enamel', light: toLinear(bodyColour(spec)), gloss };
  if (spec.bodyFinish === 'bright plate') return { coat: 'plate', light: toLinear('#d9dde0'), gloss };
  return { coat: spec.bodyFinish === 'enamel' ? 'enamel' : 'lacquer', light: toLinear(spec.colour), gloss };
};

const roofMaterial = (spec: CarSpec, body: Material): Material => {
  const colour = spec.finishState === 'stripped' ? null : roofColour(spec.roof);
  if (!colour) return body;
  return {
    coat: spec.roof === 'textured black' || spec.roof === 'folded top' ? 'matt' : 'enamel',
    light: toLinear(colour),
    gloss: body.gloss * 0.8,
  };
};

/** How much paint is gone: 0 at C10 to 1 at C1, by finish state. */
const wearOf = ({ grade, finishState }: CarSpec): number => {
  if (finishState === 'stripped') return 0;
  if (finishState === 'restored') return Math.max(0, (9 - grade) / 30);
  return Math.max(0, (9.8 - grade) / 8.8);
};

/** The painted pixels of a surface as an image, to lie under windows and lamps. */
export const surfaceImage = (palette: Palette, surface: Surface, spec: CarSpec): string =>
  pngAddress(paint(palette, surface, spec), surface.width, surface.height, palette.room);

const paint = (palette: Palette, surface: Surface, spec: CarSpec): Uint8Array => {
  const { width, height, nx, ny, exposed, open, roof, scale } = surface;
  const rgba = new Uint8Array(width * height * 4);
  const random = randomFrom(`paint ${spec.seed} ${spec.grade}`);
  const shift = { x: random.whole(0, 511), y: random.whole(0, 511) };
  const { chips, clouds, grain } = palette.textures;
  const body = bodyMaterial(spec);
  const roofPaint = roofMaterial(spec, body);
  const bare: Material = { coat: 'zinc', light: zincLight, gloss: 0.35 };
  const patch: Material = {
    coat: 'enamel',
    light: toLinear(mix(spec.colour, random.pick(['#c9372c', '#6b3fa0', '#3a3a3a', '#e8c04a']), 0.3)),
    gloss: 0.5,
  };
  const wear = wearOf(spec);
  const flatLoss = 0.5 * wear ** 3.4;
  const edgeLoss = 1.1 * wear ** 1.6;
  const touched = spec.finishState === 'touched up';
  const tone = spec.finishState === 'original' || touched ? (1 - body.gloss) * 0.85 : 0;
  const ripple = spec.finishState === 'restored' ? 0.02 : 0.004;
  const out: Light = { r: 0, g: 0, b: 0 };
  const tint = tintTable(body.light);
  // Chips keep their size on the car however small it is drawn.
  const zoom = Math.max(1, usualScale / scale);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const k = y * width + x;
      if (open[k] === 0) continue;
      const cx = ((x * zoom) | 0) + shift.x;
      const cy = ((y * zoom) | 0) + shift.y;
      const chip = texel(chips, cx, cy);
      const lost = Math.min(0.96, flatLoss + edgeLoss * Math.min(1, exposed[k]!));
      const gone = Math.min(1, Math.max(0, (chip - 1 + lost) * 22 + (lost > 0.02 ? 0.2 : 0)));
      const wobble = (texel(chips, cx * 2, cy * 2) - 0.5) * ripple;
      const own = roof[k] === 1 ? roofPaint : body;
      const cloud = tone * texel(clouds, cx, cy);
      shadeInto(palette.light, out, own, tint, nx[k]! + wobble, ny[k]! + wobble, cloud, texel(grain, cx, cy));
      if (gone > 0) {
        const { r, g, b } = out;
        const under = touched && texel(clouds, cx * 3, cy * 3) < 0.58 ? patch : bare;
        shadeInto(palette.light, out, under, tint, nx[k]!, ny[k]!, 0, texel(grain, cx + 7, cy));
        // The edge of the coat: dark where it turns from the light.
        const edge = 1 - 0.5 * Math.max(0, 1 - Math.abs(gone - 0.5) * 2);
        out.r = (r * (1 - gone) + out.r * gone) * edge;
        out.g = (g * (1 - gone) + out.g * gone) * edge;
        out.b = (b * (1 - gone) + out.b * gone) * edge;
      }
      const light = open[k]!;
      rgba[k * 4] = toByte(out.r * light);
      rgba[k * 4 + 1] = toByte(out.g * light);
      rgba[k * 4 + 2] = toByte(out.b * light);
      rgba[k * 4 + 3] = 255;
    }
  return rgba;
};

/** Light that comes back from a material with this normal, toward the camera. */
const shadeInto = (
  { sharp, satin, matt }: StudioTables,
  out: Light,
  { coat, light, gloss }: Material,
  tint: Float32Array,
  nx: number,
  ny: number,
  tone: number,
  grain: number,
): void => {
  const flat = Math.min(0.9999, nx * nx + ny * ny);
  const facing = Math.sqrt(1 - flat);
  const rim = (1 - facing) ** 5;
  const mirror = sharp.at(nx, ny);
  const blurred = satin.at(nx, ny);
  const soft = matt.at(nx, ny);
  const coatShare = (0.045 + 0.5 * rim) * gloss;
  const speck = 1 + (grain - 0.5) * 0.22;
  switch (coat) {
    case 'lacquer': {
      const at = ((facing * tintSteps) | 0) * 3;
      const metal =
        (0.09 + 1.25 * (blurred * (0.3 + 0.5 * gloss) + soft * 0.4 * (1 - gloss) + soft * 0.14)) * speck;
      const clear = mirror * coatShare * 1.15;
      const brown = 1 - tone * 0.75;
      out.r = metal * tint[at]! * (1 - tone * 0.4) + clear;
      out.g = metal * tint[at + 1]! * brown + clear;
      out.b = metal * tint[at + 2]! * brown * (1 - tone * 0.3) + clear;
      return;
    }
    case 'enamel': {
      const fall = 0.5 + 0.36 * soft + 0.26 * ny;
      const clear = mirror * coatShare * 1.1;
      out.r = light.r * fall * (1 - tone * 0.25) + clear;
      out.g = light.g * fall * (1 - tone * 0.3) + clear;
      out.b = light.b * fall * (1 - tone * 0.55) + clear;
      return;
    }
    case 'plate': {
      const seen = (mirror * gloss + blurred * (1 - gloss)) * 0.62 + 0.05;
      out.r = light.r * seen;
      out.g = light.g * seen;
      out.b = light.b * seen;
      return;
    }
    case 'matt': {
      const fall = (0.5 + 0.5 * soft) * (0.75 + 0.5 * grain);
      out.r = light.r * fall + 0.012 * soft;
      out.g = light.g * fall + 0.012 * soft;
      out.b = light.b * fall + 0.012 * soft;
      return;
    }
    default: {
      const seen = (0.24 + 0.62 * soft + 0.2 * blurred) * (1 + (grain - 0.5) * 0.2);
      out.r = light.r * seen;
      out.g = light.g * seen;
      out.b = light.b * seen;
    }
  }
};
