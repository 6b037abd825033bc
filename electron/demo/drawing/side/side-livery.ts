import { along, closed, heightAt, type PathPoint, place, px } from '../geometry.ts';
import { fill, line, type Sheet } from '../sheet.ts';
import { deepen, shade } from '../surface/colour-mixing.ts';
import { bodyColour } from '../surface/finish.ts';
import type { SideDrawing } from './side-drawing.ts';

/**
 * What lies on the painted body: a customiser's flames or stripe, the ribs of a roof, the far
 * rail of a load bed.
 */
export const drawLivery = (sheet: Sheet, drawing: SideDrawing): string =>
  (drawing.spec.finishState === 'customised' ? customPaint(sheet, drawing) : '') + ribs(drawing);

const customPaint = (sheet: Sheet, drawing: SideDrawing): string => {
  const { shape, at, random } = drawing;
  const [x0] = place(at, [0, 0]);
  const [x1] = place(at, [58, 0]);
  if (random.chance(0.4)) {
    const stripe = (drop: number, wide: number): string =>
      line(
        along(shape.belt, 8)
          .map(
            ([x, y], i) =>
              `${i === 0 ? 'M' : 'L'}${place(at, [x, y - drop])
                .map(px)
                .join(' ')}`,
          )
          .join(''),
        '#efe6cf',
        at.scale * wide,
        0.92,
      );
    return stripe(1.4, 1.5) + stripe(3.4, 0.4);
  }
  const paint = sheet.linear(x0, 0, x1, 0, [
    { at: 0, colour: '#fff2a8' },
    { at: 0.3, colour: '#ffc21f' },
    { at: 0.65, colour: '#f2741b' },
    { at: 1, colour: '#c52a12' },
  ]);
  const tongues: PathPoint[] = [[-2, shape.sill + 1, 'corner']];
  const rows = 4;
  for (let i = 0; i < rows; i++) {
    const y = shape.sill + 2 + (i * (heightAt(shape.belt, 20) - shape.sill - 2)) / rows;
    const reach = 30 + random.between(0, 24) + (i % 2) * 8;
    tongues.push(
      [14, y - 0.4],
      [reach * 0.6, y + 0.1],
      [reach, y + 1.6, 'corner'],
      [reach * 0.62, y + 2],
      [22, y + 2.2],
      [17, y + 2.6, 'corner'],
    );
  }
  tongues.push([-2, 24, 'corner']);
  const d = closed(at, tongues);
  return fill(d, paint, 0.95) + line(d, '#2a1c5e', at.scale * 0.16, 0.8);
};

/** A ribbed roof: short ridges that run across it, seen on end along its upper edge. */
const ribs = ({ shape, at, spec }: SideDrawing): string => {
  if (!shape.roof || spec.roof !== 'ribbed') return '';
  const colour = bodyColour(spec);
  const from = shape.roof[2]![0] + 1;
  const to = shape.roof[4]![0] - 1;
  const count = Math.round((to - from) / 3);
  return Array.from({ length: count + 1 }, (_, i) => {
    const x = from + ((to - from) * i) / count;
    const y = heightAt(shape.roof!, x);
    const write = (dx: number, dy: number) =>
      place(at, [x + dx, y + dy])
        .map(px)
        .join(' ');
    return (
      line(`M${write(0.35, -0.15)}L${write(0.35, -1.5)}`, deepen(colour, 0.25), at.scale * 0.5, 0.6) +
      line(`M${write(0, 0.1)}L${write(0, -1.4)}`, shade(colour, 0.2, 0.8), at.scale * 0.55, 0.9)
    );
  }).join('');
};

/** The far side of a load bed, which shows above the near rail. */
export const farRail = (sheet: Sheet, { shape, at, spec }: SideDrawing): string => {
  if (!shape.bed) return '';
  const { from, to, rail } = shape.bed;
  const colour = bodyColour(spec);
  const d = closed(at, [
    [from - 1, rail - 2, 'corner'],
    [from - 0.4, rail + 0.9, 'corner'],
    [to - 0.6, rail + 0.7, 'corner'],
    [to, rail - 2, 'corner'],
  ]);
  const [, y0] = place(at, [0, rail + 0.9]);
  const [, y1] = place(at, [0, rail - 0.6]);
  return fill(
    d,
    sheet.linear(0, y0, 0, y1, [
      { at: 0, colour: shade(colour, 0.1) },
      { at: 0.25, colour: deepen(colour, 0.5) },
      { at: 1, colour: deepen(colour, 0.25) },
    ]),
  );
};
