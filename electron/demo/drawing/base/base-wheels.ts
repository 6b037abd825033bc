import { type Placing, place, px, rounded } from '../geometry.ts';
import { fill, line } from '../sheet.ts';
import { deepen } from '../surface/colour-mixing.ts';
import { type BaseDrawing, narrow } from './base-drawing.ts';

/** The wheel wells in the base, as SVG; narrow bodies have none. */
export const wells = ({ at, shape, half, spec }: BaseDrawing): string =>
  narrow.includes(spec.body)
    ? ''
    : shape.axles
        .flatMap((x, i) =>
          [1, -1].map(sign => {
            const r = shape.radii[i]! + 0.9;
            return fill(
              rounded(
                at,
                [
                  [x - r, sign * (half - 0.2)],
                  [x + r, sign * (half - 0.2)],
                  [x + r, sign * (half - 7.6)],
                  [x - r, sign * (half - 7.6)],
                ],
                1,
              ),
              '#0c0c0d',
            );
          }),
        )
        .join('') + innerTyres({ at, shape, half, spec });

/** Tyres in their wells, seen from below. */
const innerTyres = ({ at, shape, half, spec }: Pick<BaseDrawing, 'at' | 'shape' | 'half' | 'spec'>): string =>
  shape.axles
    .flatMap((x, i) =>
      [1, -1].map(sign => {
        if (i === 1 && sign === 1 && spec.missing.includes('wheels')) return '';
        return tyre(at, x, shape.radii[i]!, sign * (half - 3.2), 5.6);
      }),
    )
    .join('');

const tyre = (at: Placing, x: number, r: number, y: number, wide: number): string => {
  const [x0, y0] = place(at, [x - r, y + wide / 2]);
  const [x1, y1] = place(at, [x + r, y - wide / 2]);
  const w = x1 - x0;
  const h = y1 - y0;
  const bands = [0.14, 0.3, 0.5, 0.7, 0.86]
    .map(t =>
      line(
        `M${px(x0 + w * t)} ${px(y0 + 2)}v${px(h - 4)}`,
        t === 0.5 ? '#5a5a5a' : '#000000',
        w * 0.05,
        t === 0.5 ? 0.5 : 0.35,
      ),
    )
    .join('');
  return `<rect x="${px(x0)}" y="${px(y0)}" width="${px(w)}" height="${px(h)}" rx="${px(h * 0.16)}" fill="#232324"/>${bands}<rect x="${px(x0)}" y="${px(y0)}" width="${px(w)}" height="${px(h * 0.22)}" rx="${px(h * 0.1)}" fill="#ffffff" fill-opacity="0.12"/>`;
};

/** Outlines of the wheels that stand free, for their shadow. */
export const tyreOutlines = ({ at, shape, spec, wheels }: BaseDrawing): string =>
  narrow.includes(spec.body)
    ? shape.axles
        .flatMap((x, i) => {
          const r = shape.radii[i]!;
          const w = i === 0 ? 3 : 4.2;
          return [1, -1].map(sign =>
            rounded(
              at,
              [
                [x - r, sign * wheels - w],
                [x + r, sign * wheels - w],
                [x + r, sign * wheels + w],
                [x - r, sign * wheels + w],
              ],
              0.8,
            ),
          );
        })
        .join('')
    : '';

/** Wheels that stand free of the body. */
export const tyres = ({ at, shape, spec, wheels }: BaseDrawing): string =>
  narrow.includes(spec.body)
    ? shape.axles
        .flatMap((x, i) =>
          [1, -1].map(sign => tyre(at, x, shape.radii[i]!, sign * wheels, i === 0 ? 6 : 8.4)),
        )
        .join('')
    : '';

/** The axles across the base, as SVG, bent on a car that has been played with hard. */
export const axleWires = ({ sheet, at, shape, half, wheels, spec }: BaseDrawing): string => {
  const reach = narrow.includes(spec.body) ? wheels - 3 : half - 6.4;
  return shape.axles
    .map(x => {
      const bent = spec.grade < 3.5 && spec.finishState !== 'restored' ? 0.8 : 0;
      const [cx, y0] = place(at, [x, reach]);
      const [, y1] = place(at, [x, -reach]);
      const bend = bent * at.scale;
      const d = `M${px(cx)} ${px(y0)}Q${px(cx + bend * 2)} ${px((y0 + y1) / 2)} ${px(cx)} ${px(y1)}`;
      const wide = at.scale * 1.15;
      const steel = sheet.linear(cx - wide / 2, 0, cx + wide / 2, 0, [
        { at: 0, colour: '#5c5c5c' },
        { at: 0.35, colour: '#f5f5f3' },
        { at: 0.7, colour: '#9b9a97' },
        { at: 1, colour: '#3c3b39' },
      ]);
      const clips = [0.46, -0.46]
        .map(t => {
          const [kx, ky] = place(at, [x, reach * t]);
          return `<rect x="${px(kx - at.scale * 1.5)}" y="${px(ky - at.scale * 0.8)}" width="${px(at.scale * 3)}" height="${px(at.scale * 1.6)}" rx="3" fill="${deepen(spec.year >= 1974 ? '#303133' : '#b9bbbb', 0.85)}" stroke="#000000" stroke-opacity="0.5"/>`;
        })
        .join('');
      return line(d, '#0a0a0a', wide * 1.9, 0.55) + line(d, steel, wide) + clips;
    })
    .join('');
};
