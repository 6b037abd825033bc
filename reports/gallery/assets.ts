/** The gallery's own style: warm paper or dark, by what the reader's system asks for. */
export const galleryStyle = `:root {
  color-scheme: light dark;
  --page: light-dark(#f7f5f0, #1b1d1f);
  --raised: light-dark(#fdfcf9, #232628);
  --sunken: light-dark(#efece4, #161819);
  --ink: light-dark(#22262b, #e8e4da);
  --soft: light-dark(#5a5d5e, #a9a59b);
  --line: light-dark(#dcd7cb, #34373a);
  --accent: light-dark(#0f5c6b, #6cb9c4);
  --caution: light-dark(#7f5509, #e0b056);
}
* { box-sizing: border-box; }
body {
  margin: 0 auto; max-width: 1280px; padding: 24px clamp(16px, 4vw, 48px) 64px;
  background: var(--page); color: var(--ink);
  font: 16px/1.5 system-ui, -apple-system, "Segoe UI", Roboto, "Noto Sans", sans-serif;
}
h1 { font-size: 30px; line-height: 1.2; margin: 8px 0 4px; text-wrap: balance; }
h2 { font-size: 19px; margin: 32px 0 8px; }
header p { margin: 0 0 16px; color: var(--soft); }
a { color: var(--accent); text-underline-offset: .18em; }
:focus-visible { outline: 2px solid var(--accent); outline-offset: 3px; border-radius: 4px; }
.find { margin: 0 0 24px; }
.find input {
  font: inherit; color: inherit; background: var(--raised); border: 1px solid var(--soft); border-radius: 6px;
  padding: 6px 10px; margin: 0 8px; width: min(320px, 60vw);
}
.wall { list-style: none; margin: 0; padding: 0; display: grid; gap: 28px 20px; grid-template-columns: repeat(auto-fill, minmax(210px, 1fr)); }
.tile { display: block; color: inherit; text-decoration: none; }
.tile:hover .name { text-decoration: underline; }
.frame { display: grid; place-items: center; aspect-ratio: 4 / 3; background: var(--sunken); border-radius: 6px; overflow: hidden; margin-bottom: 8px; }
.frame img { width: 100%; height: 100%; object-fit: cover; }
.no-picture { color: var(--soft); font-size: 14px; }
.name { display: block; font-weight: 600; overflow-wrap: anywhere; }
.line { display: block; color: var(--soft); font-size: 14px; overflow-wrap: anywhere; }
.number { float: inline-end; }
.chip { width: 22px; height: 14px; vertical-align: -2px; margin-inline-end: 6px; }
.statement { max-width: 75ch; margin: 0 0 20px; padding: 10px 14px; background: var(--raised); border: 1px solid var(--line); border-radius: 6px; overflow-wrap: anywhere; }
.told { border-color: var(--caution); }
figure { margin: 0; }
figure img { display: block; max-width: 100%; height: auto; border-radius: 6px; background: var(--sunken); }
figcaption { color: var(--soft); font-size: 14px; margin-top: 6px; overflow-wrap: anywhere; }
.pictures { display: grid; gap: 24px; grid-template-columns: repeat(auto-fit, minmax(min(480px, 100%), 1fr)); }
.compare { margin-bottom: 24px; }
.sides { display: grid; grid-template-columns: 1fr 1fr; gap: 8px; }
.side { position: relative; }
.tag { position: absolute; inset-block-end: 10px; inset-inline-start: 10px; padding: 2px 8px; border-radius: 4px; background: #22262b; color: #fff; font-size: 13px; }
.compare.live .sides { display: block; position: relative; aspect-ratio: 3 / 2; max-height: 80vh; overflow: hidden; border-radius: 6px; background: var(--sunken); --at: 50%; }
.compare.live .side { position: absolute; inset: 0; }
.compare.live img { width: 100%; height: 100%; object-fit: contain; }
.compare.live .after { clip-path: inset(0 0 0 var(--at)); background: var(--sunken); }
.compare.live .after .tag { inset-inline: auto 10px; }
.compare.live .sides::after { content: ""; position: absolute; inset-block: 0; left: var(--at); width: 2px; margin-left: -1px; background: #fff; box-shadow: 0 0 0 1px #22262b; pointer-events: none; }
.compare.live input { position: absolute; inset: 0; width: 100%; height: 100%; margin: 0; opacity: 0; cursor: ew-resize; }
.compare.live .sides:focus-within { outline: 2px solid var(--accent); outline-offset: 3px; }
dl { margin: 0; max-width: 75ch; }
dl div { display: grid; grid-template-columns: minmax(120px, 200px) 1fr; gap: 12px; padding: 5px 0; border-bottom: 1px solid var(--line); }
dt { color: var(--soft); }
dd { margin: 0; overflow-wrap: anywhere; }
table { border-collapse: collapse; width: 100%; max-width: 75ch; }
th, td { text-align: start; padding: 5px 12px 5px 0; border-bottom: 1px solid var(--line); font-weight: 400; vertical-align: top; }
thead th { color: var(--soft); }
.steps { display: flex; justify-content: space-between; gap: 24px; margin-top: 40px; }
@media (max-width: 560px) { .sides { grid-template-columns: 1fr; } }
@media print { .find, nav { display: none; } }
`;

/** What moves the line between before and after, and finds a car on the wall. Without it everything is still there to be seen. */
export const galleryScript = `'use strict';
for (const figure of document.querySelectorAll('.compare')) {
  const sides = figure.querySelector('.sides');
  const range = figure.querySelector('input');
  const move = () => {
    sides.style.setProperty('--at', range.value + '%');
    range.setAttribute('aria-valuetext', range.value + ' % before, ' + (100 - range.value) + ' % after');
  };
  figure.classList.add('live');
  range.hidden = false;
  range.addEventListener('input', move);
  move();
}
const find = document.getElementById('find');
if (find) {
  const tiles = [...document.querySelectorAll('.wall > li')];
  const found = document.getElementById('found');
  const fold = text => text.normalize('NFKD').replace(/\\p{M}/gu, '').toLowerCase();
  const texts = tiles.map(tile => fold(tile.textContent));
  find.closest('p').hidden = false;
  find.addEventListener('input', () => {
    const words = fold(find.value).split(/\\s+/).filter(Boolean);
    let shown = 0;
    tiles.forEach((tile, i) => {
      const fits = words.every(word => texts[i].includes(word));
      tile.hidden = !fits;
      if (fits) shown += 1;
    });
    found.textContent = words.length === 0 ? '' : shown + ' of ' + tiles.length;
  });
}
`;
