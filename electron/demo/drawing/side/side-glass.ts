import { closed, type PathPoint, type Placing, place, px, rounded } from '../geometry.ts';
import type { Shape } from '../shapes/shape.ts';
import { fill, group, line, type Sheet } from '../sheet.ts';
import { deepen, mix } from '../surface/colour-mixing.ts';
import { glazingTints, interiorColours } from '../surface/finish.ts';
import type { SideDrawing } from './side-drawing.ts';

/** Near-side windows with what is seen through them. */
export const drawGlass = (sheet: Sheet, { shape, at, spec }: SideDrawing): string => {
  if (shape.windows.length === 0) return '';
  const d = shape.windows.map(points => rounded(at, points, 1)).join('');
  const clip = sheet.clip(d);
  const ys = shape.windows.flat().map(([, y]) => y);
  const [, top] = place(at, [0, Math.max(...ys)]);
  const [, bottom] = place(at, [0, Math.min(...ys)]);
  const gone = spec.missing.includes('glazing');
  const tint = glazingTints[spec.glazing] ?? glazingTints.clear!;
  // Through the far window the paper shows; above and below it the inside of the casting.
  const behind = sheet.linear(0, top, 0, bottom, [
    { at: 0, colour: '#1c1b1a' },
    { at: 0.13, colour: '#2e2c2a' },
    { at: 0.16, colour: '#b6b1a7' },
    { at: 0.7, colour: '#c9c4ba' },
    { at: 0.74, colour: '#3a3835' },
    { at: 1, colour: '#211f1e' },
  ]);
  const seat = interiorColours[spec.interior] ?? '#333333';
  const inside = spec.missing.includes('interior') ? '' : drawSeats(sheet, shape, at, seat);
  const veil = sheet.linear(0, top, 0, bottom, [
    { at: 0, colour: '#ffffff', opacity: 0.62 },
    { at: 0.1, colour: '#ffffff', opacity: 0.3 },
    { at: 0.42, colour: '#ffffff', opacity: 0.06 },
    { at: 0.44, colour: '#000000', opacity: 0.05 },
    { at: 1, colour: '#000000', opacity: 0.2 },
  ]);
  const streaks = shape.windows
    .flatMap(points => {
      const xs = points.map(([x]) => x);
      const from = Math.min(...xs);
      const wide = Math.max(...xs) - from;
      const slant = (x: number, w: number) => {
        const write = (u: number, y: number) => `${px(place(at, [u, 0])[0])} ${px(y)}`;
        return `M${write(x + 6, top)}L${write(x + 6 + w, top)}L${write(x - 1 + w, bottom)}L${write(x - 1, bottom)}Z`;
      };
      return [slant(from + wide * 0.2, wide * 0.13), slant(from + wide * 0.38, wide * 0.04)];
    })
    .join('');
  return (
    group(
      fill(d, behind) +
        inside +
        (gone
          ? fill(d, '#000000', 0.18)
          : fill(d, tint.colour, tint.depth) +
            fill(d, veil, spec.glazing === 'smoke' ? 0.55 : 0.8) +
            fill(streaks, '#ffffff', 0.15)),
      `clip-path="${clip}"`,
    ) +
    line(d, '#0b0b0d', at.scale * 0.42, 0.8) +
    line(d, mix(tint.colour, '#ffffff', 0.5), at.scale * 0.1, 0.4)
  );
};

/** Seat backs and the steering wheel in the colour of the interior. */
export const drawSeats = (sheet: Sheet, shape: Shape, at: Placing, colour: string): string => {
  const backs = shape.seats
    .map(({ x, top }) => {
      const points: PathPoint[] = [
        [x - 5, top - 12, 'corner'],
        [x - 1.2, top - 5],
        [x + 0.8, top - 0.6],
        [x + 2.4, top],
        [x + 3.8, top - 0.9],
        [x + 4.4, top - 12, 'corner'],
      ];
      const [x0] = place(at, [x - 3, 0]);
      const [x1] = place(at, [x + 4.4, 0]);
      return fill(
        closed(at, points),
        sheet.linear(x0, 0, x1, 0, [
          { at: 0, colour: deepen(colour, 0.72) },
          { at: 0.55, colour: deepen(colour, 0.9) },
          { at: 1, colour: deepen(colour, 0.5) },
        ]),
      );
    })
    .join('');
  if (!shape.wheelHub) return backs;
  const [x, y] = place(at, shape.wheelHub);
  const r = at.scale * 2;
  const column = line(
    `M${px(x)} ${px(y)}l${px(-at.scale * 5)} ${px(at.scale * 3.2)}`,
    deepen(colour, 0.4),
    at.scale * 0.5,
  );
  return `${backs}${column}<ellipse cx="${px(x)}" cy="${px(y)}" rx="${px(r * 0.36)}" ry="${px(r)}" transform="rotate(24 ${px(x)} ${px(y)})" fill="none" stroke="${deepen(colour, 0.5)}" stroke-width="${px(at.scale * 0.42)}"/>`;
};
