/**
 * Mixing in OKLab, where lighter and darker keep their hue. Source: Ottosson, "A perceptual
 * color space", 2020.
 */
interface Lab {
  l: number;
  a: number;
  b: number;
}

const toLinear = (channel: number) =>
  channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
const toGamma = (channel: number) =>
  channel <= 0.0031308 ? channel * 12.92 : 1.055 * channel ** (1 / 2.4) - 0.055;

const parse = (hex: string): Lab => {
  const [r, g, b] = [1, 3, 5].map(i => toLinear(Number.parseInt(hex.slice(i, i + 2), 16) / 255)) as [
    number,
    number,
    number,
  ];
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return {
    l: 0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    a: 1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    b: 0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  };
};

const format = ({ l: light, a, b }: Lab): string => {
  const l = (light + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const m = (light - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const s = (light - 0.0894841775 * a - 1.291485548 * b) ** 3;
  const channels = [
    4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
    -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
    -0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s,
  ];
  return `#${channels
    .map(channel => {
      const value = Math.round(255 * Math.min(1, Math.max(0, toGamma(Math.max(0, channel)))));
      return value.toString(16).padStart(2, '0');
    })
    .join('')}`;
};

/** `share` of the way from one colour to another. */
export const mix = (from: string, to: string, share: number): string => {
  const a = parse(from);
  const b = parse(to);
  const between = (x: number, y: number) => x + (y - x) * share;
  return format({ l: between(a.l, b.l), a: between(a.a, b.a), b: between(a.b, b.b) });
};

/** The colour with its lightness moved by `light` (−1…1) and its chroma multiplied. */
export const shade = (hex: string, light: number, chroma = 1): string => {
  const { l, a, b } = parse(hex);
  return format({ l: Math.min(0.995, Math.max(0.02, l + light)), a: a * chroma, b: b * chroma });
};

/** The colour with its lightness multiplied: 0 is black. */
export const deepen = (hex: string, factor: number, chroma = 1): string => {
  const { l, a, b } = parse(hex);
  return format({ l: l * factor, a: a * chroma, b: b * chroma });
};
