import { px } from './geometry.ts';
import type { Palette } from './surface/palette.ts';

export interface Stop {
  /** 0 … 1 along the gradient. */
  at: number;
  colour: string;
  opacity?: number;
}

/** Collects the definitions of one drawing and hands out references to them; ids begin with the prefix. */
export interface Sheet {
  readonly palette: Palette;
  /** `url(#…)` of a straight gradient between two points in pixels. */
  linear(x1: number, y1: number, x2: number, y2: number, stops: Stop[]): string;
  /** `url(#…)` of a round gradient in pixels. */
  radial(cx: number, cy: number, r: number, stops: Stop[], squash?: number): string;
  /** `url(#…)` of a clip made of path data. */
  clip(paths: string, rule?: 'evenodd'): string;
  /** `url(#…)` of any other definition, which is given its id. */
  define(make: (id: string) => string): string;
  defs(): string;
}

const stopText = (stops: Stop[]): string =>
  stops
    .map(
      ({ at, colour, opacity }) =>
        `<stop offset="${px(at)}" stop-color="${colour}"${opacity === undefined ? '' : ` stop-opacity="${px(opacity)}"`}/>`,
    )
    .join('');

/** An empty sheet; the ids of its definitions begin with `prefix`, and equal definitions are kept once. */
export const newSheet = (prefix: string, palette: Palette): Sheet => {
  const made: string[] = [];
  const known = new Map<string, string>();
  const define = (make: (id: string) => string): string => {
    const key = make('');
    let id = known.get(key);
    if (id === undefined) {
      id = `${prefix}${made.length}`;
      known.set(key, id);
      made.push(make(id));
    }
    return `url(#${id})`;
  };
  return {
    palette,
    linear: (x1, y1, x2, y2, stops) =>
      define(
        id =>
          `<linearGradient id="${id}" gradientUnits="userSpaceOnUse" x1="${px(x1)}" y1="${px(y1)}" x2="${px(x2)}" y2="${px(y2)}">${stopText(stops)}</linearGradient>`,
      ),
    radial: (cx, cy, r, stops, squash = 1) =>
      define(id => {
        const turn =
          squash === 1
            ? ''
            : ` gradientTransform="translate(0 ${px(cy * (1 - squash))}) scale(1 ${px(squash)})"`;
        return `<radialGradient id="${id}" gradientUnits="userSpaceOnUse" cx="${px(cx)}" cy="${px(cy)}" r="${px(r)}"${turn}>${stopText(stops)}</radialGradient>`;
      }),
    clip: (paths, rule) =>
      define(
        id => `<clipPath id="${id}"><path d="${paths}"${rule ? ` clip-rule="${rule}"` : ''}/></clipPath>`,
      ),
    define,
    defs: () => `<defs>${made.join('')}</defs>`,
  };
};

/** A filled path. Opacity is the paint's own: a group's would need a picture of its own to be made. */
export const fill = (d: string, paint: string, opacity = 1): string =>
  `<path d="${d}" fill="${paint}"${opacity === 1 ? '' : ` fill-opacity="${px(opacity)}"`}/>`;

/** An SVG path as a stroke with round ends, `width` in pixels. */
export const line = (d: string, paint: string, width: number, opacity = 1): string =>
  `<path d="${d}" fill="none" stroke="${paint}" stroke-width="${px(width)}" stroke-linecap="round" stroke-linejoin="round"${opacity === 1 ? '' : ` stroke-opacity="${px(opacity)}"`}/>`;

/** An SVG group around markup. */
export const group = (inner: string, attributes = ''): string => `<g ${attributes}>${inner}</g>`;
