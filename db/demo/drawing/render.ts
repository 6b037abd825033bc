import sharp from 'sharp';
import { px } from './geometry.ts';
import { shapeOf } from './shapes/index.ts';
import { newSheet } from './sheet.ts';
import { drawSide } from './side-view.ts';
import type { CarSpec, DrawnView } from './spec.ts';
import { canvas, drawPaper, drawShadow, papers } from './studio.ts';

/** Pixels for one millimetre of the model. */
const pixelsPerMm = 12.6;

/** A photograph of a car from its near side, as SVG. */
export const drawCar = (spec: CarSpec, paper = 0): string => {
  const sheet = newSheet('c');
  const length = spec.lengthMm * pixelsPerMm;
  const at = { left: (canvas.width - length) / 2, ground: 572, scale: length / 100 };
  const shape = shapeOf(spec);
  const backdrop = papers[paper % papers.length]!;
  const wheels = shape.axles.map((x, i): [number, number] => [
    at.left + x * at.scale,
    shape.radii[i]! * at.scale,
  ]);
  const inner =
    drawPaper(sheet, backdrop, at.ground) +
    drawShadow(sheet, backdrop, { left: at.left, right: at.left + length, ground: at.ground, wheels }) +
    drawSide(sheet, spec, at);
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${px(canvas.width)}" height="${px(canvas.height)}" viewBox="0 0 ${canvas.width} ${canvas.height}">${sheet.defs()}${inner}</svg>`;
};

/** The photograph as JPEG bytes: fixed options, so that the same drawing is the same file. */
export const renderView = async (view: DrawnView): Promise<Uint8Array> => {
  const spec = view.kind === 'lot' ? view.cars[0]! : view.car;
  return sharp(Buffer.from(drawCar(spec)), { density: 72 })
    .jpeg({ quality: 84, mozjpeg: true })
    .toBuffer();
};
