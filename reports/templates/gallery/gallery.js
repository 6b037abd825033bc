// Moves the line between before and after, and finds a car on the wall. Without it everything is still there to be seen.
'use strict';
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
  const fold = text => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
  const texts = tiles.map(tile => fold(tile.textContent));
  find.closest('p').hidden = false;
  find.addEventListener('input', () => {
    const words = fold(find.value).split(/\s+/).filter(Boolean);
    let shown = 0;
    tiles.forEach((tile, i) => {
      const fits = words.every(word => texts[i].includes(word));
      tile.hidden = !fits;
      if (fits) shown += 1;
    });
    found.textContent = words.length === 0 ? '' : shown + ' of ' + tiles.length;
  });
}
