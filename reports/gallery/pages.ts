import { counted } from '../../valuation/wording/reader.ts';
import { type Gallery, type GalleryCar, type GalleryPhoto, galleryPairs } from './gallery.ts';
import { html, type Markup } from './html.ts';

/** A photograph as it lies in the gallery. */
export interface ShownPhoto extends Omit<GalleryPhoto, 'path'> {
  /** Its files' name without folder and ending. */
  file: string;
  /** Of the large picture, in pixels. */
  width: number;
  height: number;
}

/** A car with its page's name and the photographs that could be read. */
export interface ShownCar extends Omit<GalleryCar, 'photos'> {
  page: string;
  photos: ShownPhoto[];
}

export type ShownGallery = Omit<Gallery, 'cars'> & { cars: ShownCar[] };

/**
 * Nothing is loaded from elsewhere, and nothing is sent anywhere; a page opened as a file has no origin to
 * call its own.
 */
const policy =
  "default-src 'none'; img-src 'self' file:; style-src 'self' file:; script-src 'self' file:; base-uri 'none'; form-action 'none'";

const page = (title: string, locale: string, up: string, body: Markup): string =>
  html`<!doctype html>
<html lang="${locale}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${title}</title>
<link rel="stylesheet" href="${up}gallery.css">
<script src="${up}gallery.js" defer></script>
</head>
<body>
${body}
</body>
</html>
`.markup;

const chip = (swatch: string | null): Markup =>
  swatch && /^#[0-9a-f]{6}$/i.test(swatch)
    ? html`<svg class="chip" viewBox="0 0 22 14" aria-hidden="true"><rect width="22" height="14" rx="4" fill="${swatch}"/><rect x="2" y="1.5" width="18" height="4" rx="2" fill="#fff" opacity=".35"/></svg>`
    : html``;

const spoken = (car: ShownCar, photo: ShownPhoto): string =>
  [car.name, car.inventoryNumber, photo.view, photo.state].filter(Boolean).join(', ');

const tile = (car: ShownCar): Markup => {
  const cover = car.photos.find(({ state }) => state !== 'before') ?? car.photos[0];
  const picture = cover
    ? html`<img src="pictures/${cover.file}-small.jpg" width="${cover.width}" height="${cover.height}" loading="lazy" decoding="async" alt="">`
    : html`<span class="no-picture">no photograph</span>`;
  return html`<li><a class="tile" href="cars/${car.page}.html">
<span class="frame">${picture}</span>
<span class="name" dir="auto">${car.name}</span>
<span class="line">${chip(car.swatch)}<span dir="auto">${car.colour}</span></span>
<span class="line">${car.condition} <span class="number">${car.inventoryNumber}</span></span>
</a></li>`;
};

const find = html`<p class="find" hidden><label for="find">Find a car</label> <input id="find" type="search" autocomplete="off"> <span id="found" role="status"></span></p>`;

/** The wall of all cars. */
export const wallPage = ({ title, locale, cars }: ShownGallery): string =>
  page(
    title,
    locale,
    '',
    html`<header><h1 dir="auto">${title}</h1><p>${counted(cars.length, 'car')}. ${cars.length === 1 ? 'Its finish is' : 'The finish of each is'} stated on its page.</p></header>
<main>
${cars.length > 1 ? find : html``}
<ul class="wall">
${cars.map(tile)}
</ul>
</main>`,
  );

const picture = (car: ShownCar, photo: ShownPhoto, eager = false): Markup =>
  html`<img src="../pictures/${photo.file}.jpg" width="${photo.width}" height="${photo.height}" loading="${eager ? 'eager' : 'lazy'}" decoding="async" alt="${spoken(car, photo)}">`;

const said = ({ view, state, caption }: ShownPhoto): string =>
  [view, state, caption.toLowerCase() === view.toLowerCase() ? '' : caption].filter(Boolean).join(', ');

const compare = (car: ShownCar, { before, after }: { before: ShownPhoto; after: ShownPhoto }): Markup =>
  html`<figure class="compare">
<div class="sides">
<div class="side">${picture(car, before, true)}<span class="tag">Before</span></div>
<div class="side after">${picture(car, after, true)}<span class="tag">After</span></div>
<input type="range" min="0" max="100" value="50" hidden aria-label="Line between before and after, ${before.view || 'car'}">
</div>
<figcaption dir="auto">${before.view || 'The car'} before and after the work</figcaption>
</figure>`;

const partRows = (car: ShownCar): Markup =>
  car.parts.length === 0
    ? html``
    : html`<h2>Part by part</h2>
<table><thead><tr><th scope="col">Part</th><th scope="col">Grade</th><th scope="col">Originality</th></tr></thead>
<tbody>
${car.parts.map(({ part, grade, originality }) => html`<tr><th scope="row" dir="auto">${part}</th><td>${grade}</td><td>${originality}</td></tr>`)}
</tbody></table>`;

const step = (other: ShownCar | undefined, rel: 'prev' | 'next'): Markup =>
  other
    ? html`<a rel="${rel}" href="${other.page}.html">${rel === 'prev' ? 'Previous' : 'Next'}: <span dir="auto">${other.name}</span></a>`
    : html`<span></span>`;

/** One car: what it is, what state it is in, its photographs. */
export const carPage = ({ title, locale, cars }: ShownGallery, at: number): string => {
  const car = cars[at]!;
  const pairs = galleryPairs(car.photos);
  const rest = car.photos.filter(photo => !pairs.some(pair => pair.before === photo || pair.after === photo));
  return page(
    `${car.name}, ${title}`,
    locale,
    '../',
    html`<nav aria-label="Gallery"><a href="../index.html" dir="auto">${title}</a></nav>
<main>
<header><h1 dir="auto">${car.name}</h1>
<p class="line">${chip(car.swatch)}<span dir="auto">${[car.colour, car.condition].filter(Boolean).join(', ')}</span></p></header>
<p class="${car.disclosed ? 'statement told' : 'statement'}" dir="auto">${car.statement}</p>
${pairs.map(pair => compare(car, pair))}
<div class="pictures">
${rest.map((photo, i) => html`<figure>${picture(car, photo, i === 0)}${said(photo) ? html`<figcaption dir="auto">${said(photo)}</figcaption>` : html``}</figure>`)}
${car.photos.length === 0 ? html`<p>There is no photograph of it.</p>` : html``}
</div>
<h2>What it is</h2>
<dl>
${car.facts.map(({ label, value }) => html`<div><dt>${label}</dt><dd dir="auto">${value}</dd></div>`)}
</dl>
${partRows(car)}
</main>
${cars.length > 1 ? html`<nav class="steps" aria-label="Other cars">${step(cars[at - 1], 'prev')}${step(cars[at + 1], 'next')}</nav>` : html``}`,
  );
};
