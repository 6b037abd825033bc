import sharp from 'sharp';
import { drawBase, drawBaseShadow } from './base/base-view.ts';
import { drawLot } from './lot-view.ts';
import { drawRear } from './rear/rear-view.ts';
import { shapeOf } from './shapes/index.ts';
import { newSheet, type Sheet } from './sheet.ts';
import { drawSide } from './side/side-view.ts';
import type { CarSpec, CarView, DrawnView } from './spec.ts';
import { canvas, drawFlatPaper, drawPaper, drawShadow, type Paper, papers } from './studio.ts';
import type { Palette } from './surface/palette.ts';

/** Pixels for one millimetre of the model. */
const pixelsPerMm = 14.3;
const ground = 590;

const page = (sheet: Sheet, inner: string, scale = 1): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${canvas.width * scale}" height="${canvas.height * scale}" viewBox="0 0 ${canvas.width} ${canvas.height}">${sheet.defs()}${inner}</svg>`;

const side = (sheet: Sheet, spec: CarSpec, paper: Paper): string => {
  const length = spec.lengthMm * pixelsPerMm;
  const at = { left: (canvas.width - length) / 2, ground, scale: length / 100 };
  const shape = shapeOf(spec);
  const wheels = shape.axles.map((x, i): [number, number] => [
    at.left + x * at.scale,
    shape.radii[i]! * at.scale,
  ]);
  return (
    drawPaper(sheet, paper, ground) +
    drawShadow(sheet, paper, { left: at.left, right: at.left + length, ground, wheels }) +
    drawSide(sheet, spec, at)
  );
};

/**
 * What is all soft, drawn small and spread: blurring it at its full size would take five times as long
 * as all the rest.
 */
const spread = async (sheet: Sheet, soft: string): Promise<string> => {
  const small = await sharp(Buffer.from(page(sheet, soft, 1 / 4)))
    .png({ compressionLevel: 1 })
    .toBuffer();
  return `<image width="${canvas.width}" height="${canvas.height}" href="data:image/png;base64,${small.toString('base64')}"/>`;
};

const base = async (sheet: Sheet, spec: CarSpec, paper: Paper): Promise<string> => {
  const length = spec.lengthMm * pixelsPerMm;
  const at = { left: (canvas.width - length) / 2, ground: canvas.height / 2, scale: length / 100 };
  const shadow = newSheet('s', sheet.palette);
  return (
    drawFlatPaper(sheet, paper) +
    (await spread(shadow, drawBaseShadow(shadow, spec, at, paper))) +
    drawBase(sheet, spec, at)
  );
};

/** A photograph of a car on its sheet of paper, as SVG. */
const drawCar = async (palette: Palette, spec: CarSpec, view: CarView, paper = 0): Promise<string> => {
  const sheet = newSheet('c', palette);
  const draw = { side, base, rear: drawRear }[view];
  return page(sheet, await draw(sheet, spec, papers[paper % papers.length]!));
};

/** The cars of a lot together, as SVG. */
const drawLotPicture = (palette: Palette, cars: readonly CarSpec[], seed: string): string => {
  const sheet = newSheet('l', palette);
  return page(sheet, drawLot(sheet, cars, seed, cars[0]?.paper ?? 0));
};

/** The photograph as JPEG bytes: fixed options, so that the same drawing is the same file. */
export const renderView = async (view: DrawnView, palette: Palette): Promise<Uint8Array> => {
  const svg =
    view.kind === 'lot'
      ? drawLotPicture(palette, view.cars, view.seed)
      : await drawCar(palette, view.car, view.kind, view.car.paper);
  return sharp(Buffer.from(svg)).jpeg({ quality: 83 }).toBuffer();
};
