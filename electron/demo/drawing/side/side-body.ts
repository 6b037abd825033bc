import { curve, type PathPoint, place, px } from '../geometry.ts';
import { group, line, type Sheet } from '../sheet.ts';
import { surfaceImage } from '../surface/body-picture.ts';
import { archGap } from '../surface/body-surface.ts';
import { deepen, shade } from '../surface/colour-mixing.ts';
import { bodyColour } from '../surface/finish.ts';
import { drawBase } from './side-base.ts';
import type { SideDrawing } from './side-drawing.ts';
import { drawGlass } from './side-glass.ts';
import { drawLivery, farRail } from './side-livery.ts';
import { drawBefore, drawBehind } from './side-open.ts';

/** The outline closed along the sill, with the wheel arches cut out. */
const bodyPath = ({ shape, at }: SideDrawing): string => {
  const { outline, sill, axles, radii, arches } = shape;
  const write = (x: number, y: number) => place(at, [x, y]).map(px).join(' ');
  let d = curve(at, outline);
  const last = outline.at(-1)!;
  d += `L${write(last[0] - 0.8, sill + 0.3)}`;
  if (arches)
    for (const i of [1, 0]) {
      const r = radii[i]! + archGap;
      const half = Math.sqrt(Math.max(0, r * r - (radii[i]! - sill) ** 2));
      const radius = px(r * at.scale);
      d += `L${write(axles[i]! + half, sill)}A${radius} ${radius} 0 1 0 ${write(axles[i]! - half, sill)}`;
    }
  const first = outline[0]!;
  d += `L${write(first[0] + 0.8, sill + 0.3)}Z`;
  return d;
};

/** Base, painted body, windows and seams; wheels and fittings come over it. */
export const drawBody = (sheet: Sheet, drawing: SideDrawing): string => {
  const { shape, at, spec } = drawing;
  const d = bodyPath(drawing);
  const clip = sheet.clip(d);
  const surface = sheet.palette.surfaceOf(shape, at.scale);
  const [x, y] = place(at, [surface.left, surface.top]);
  const image = `<image x="${px(x)}" y="${px(y)}" width="${surface.width}" height="${surface.height}" preserveAspectRatio="none" href="${surfaceImage(sheet.palette, surface, spec)}"/>`;
  return (
    drawBase(sheet, drawing) +
    drawBehind(sheet, drawing) +
    farRail(sheet, drawing) +
    group(image + drawLivery(sheet, drawing), `clip-path="${clip}"`) +
    drawGlass(sheet, drawing) +
    seams(drawing) +
    edges(drawing, d, clip) +
    drawBefore(sheet, drawing)
  );
};

/** Lines cut into the casting: dark, with light on the far lip. */
const seams = ({ shape, at, spec }: SideDrawing): string => {
  const colour = bodyColour(spec);
  const lit = shade(colour, 0.22, 0.7);
  const dark = deepen(colour, 0.28, 0.9);
  return shape.seams
    .map(points => {
      const beside = points.map(([x, y, corner]): PathPoint => [x + 0.19, y - 0.14, corner]);
      return (
        line(curve(at, beside), lit, at.scale * 0.14, 0.5) +
        line(curve(at, points), dark, at.scale * 0.24, 0.85)
      );
    })
    .join('');
};

/** The edges of the casting: it is thick metal, dark where it ends. */
const edges = ({ shape, at, spec }: SideDrawing, d: string, clip: string): string => {
  const dark = deepen(bodyColour(spec), 0.3, 0.9);
  const lips = shape.arches
    ? shape.axles
        .map((x, i) => {
          const r = (shape.radii[i]! + archGap) * at.scale;
          const [cx, cy] = place(at, [x, shape.radii[i]!]);
          return line(
            `M${px(cx - r)} ${px(cy)}A${px(r)} ${px(r)} 0 0 1 ${px(cx + r)} ${px(cy)}`,
            '#000000',
            at.scale * 0.34,
            0.5,
          );
        })
        .join('')
    : '';
  return group(lips + line(d, dark, at.scale * 0.2, 0.4), `clip-path="${clip}"`);
};
