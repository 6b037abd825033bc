import { useId } from 'react';
import classes from './emblem.module.css';
import { Wheel } from './wheel.tsx';

const body =
  'M40 164 C37 146 42 130 60 123 L92 114 C132 108 166 99 198 86 C238 68 286 58 332 58 C378 58 408 75 442 101 C486 105 534 111 568 123 C592 132 604 146 604 163 C604 174 597 180 584 180 L560 180 A46 46 0 0 0 468 180 L190 180 A46 46 0 0 0 98 180 L58 180 C47 180 42 176 40 164 Z';

/** Where play has worn the lacquer through to the bare metal: edges, the door, the tail. */
const wear = [
  'M441 101 l7 1.2 l9 0.6 l5 2.6 l-8 1.8 l-9 -1.6 Z',
  'M560 120 l8 3 l7 4.4 l-5 1.2 l-8 -4 Z',
  'M596 144 l4 6 l2 8 l-4 -1 l-3 -7 Z',
  'M57 124 l8 -3 l9 -2 l-4 4.4 l-9 3 Z',
  'M41 150 l3 6 l-1 7 l-3 -4 Z',
  'M300 60 l12 -1.2 l10 -0.2 l-6 2.4 l-12 1.2 Z',
  'M352 141 l6 -2 l4 2.6 l-3 4 l-6 -1 Z',
  'M226 152 l4 -3 l5 1 l-1 4 l-6 1.4 Z',
  'M258 131 l3 -1.6 l3 1.2 l-2 2.2 Z',
];

/** The car of the first page: candy lacquer over bare metal, played with, on the three bars of its worth. */
export const LacquerCar = () => {
  const id = useId();
  const paint = (name: string) => `url(#${id}${name})`;
  return (
    <svg className={classes.car} viewBox="0 0 640 236" aria-hidden="true">
      <defs>
        <linearGradient id={`${id}lacquer`} x1="0" y1="58" x2="0" y2="180" gradientUnits="userSpaceOnUse">
          <stop offset="0" stopColor="#ffb08a" />
          <stop offset="0.16" stopColor="#f0633a" />
          <stop offset="0.4" stopColor="#d93d1a" />
          <stop offset="0.56" stopColor="#b32410" />
          <stop offset="0.62" stopColor="#8c1708" />
          <stop offset="0.86" stopColor="#a62a14" />
          <stop offset="1" stopColor="#5f0f05" />
        </linearGradient>
        <linearGradient id={`${id}glass`} x1="0" y1="66" x2="0" y2="108" gradientUnits="userSpaceOnUse">
          <stop offset="0" stopColor="#dbe9ea" />
          <stop offset="0.5" stopColor="#8fb0b4" />
          <stop offset="1" stopColor="#4a666b" />
        </linearGradient>
        <linearGradient id={`${id}metal`} x1="0" y1="0" x2="0" y2="1">
          <stop offset="0" stopColor="#f4f4f2" />
          <stop offset="0.5" stopColor="#a9adae" />
          <stop offset="1" stopColor="#6d7172" />
        </linearGradient>
        <radialGradient id={`${id}shadow`}>
          <stop offset="0" stopColor="#000000" stopOpacity="0.34" />
          <stop offset="0.6" stopColor="#000000" stopOpacity="0.16" />
          <stop offset="1" stopColor="#000000" stopOpacity="0" />
        </radialGradient>
        <clipPath id={`${id}body`}>
          <path d={body} />
        </clipPath>
      </defs>
      <ellipse cx="322" cy="219" rx="304" ry="13" fill={paint('shadow')} />
      <path d="M98 180 A46 46 0 0 1 190 180 Z M468 180 A46 46 0 0 1 560 180 Z" fill="#17181a" />
      <path d="M186 176 H472 V189 H186 Z" fill="#26282a" />
      <rect x="188" y="178" width="284" height="9" rx="2" fill={paint('metal')} />
      <path d={body} fill={paint('lacquer')} />
      <g clipPath={paint('body')}>
        <path
          d="M40 132 C180 108 430 106 606 138 L606 146 C430 118 180 120 40 144 Z"
          fill="#ffd9c4"
          opacity="0.5"
        />
        <path
          d="M206 84 C252 64 300 59 334 60 C366 61 392 70 414 84 C372 68 270 64 206 84 Z"
          fill="#ffffff"
          opacity="0.65"
        />
        <path d="M30 170 C200 160 440 160 610 168 L610 182 L30 182 Z" fill="#ff9d73" opacity="0.16" />
        {wear.map(chip => (
          <path key={chip} d={chip} fill="#c3c6c6" stroke="#7c2011" strokeWidth="0.7" />
        ))}
      </g>
      <path d="M204 106 C236 84 284 72 322 71 L327 104 Z" fill={paint('glass')} />
      <path d="M338 71 C374 72 400 84 428 105 L342 104 Z" fill={paint('glass')} />
      <path
        d="M250 88 L274 79 L256 105 L236 105 Z M352 72 L366 73.5 L384 104 L366 104 Z"
        fill="#ffffff"
        opacity="0.35"
      />
      <path
        d="M330 71 L334 104 C336 128 330 152 318 172 M206 107 C204 128 206 150 214 168"
        className={classes.seam}
      />
      <path d="M300 118 h16" stroke="#f3e3d8" strokeWidth="2.4" strokeLinecap="round" />
      <path
        d="M566 124 C582 129 592 137 596 146 L578 146 C570 140 566 132 566 124 Z"
        fill="#fff3d6"
        stroke="#6d7172"
        strokeWidth="1.4"
      />
      <path d="M42 150 L56 146 L56 160 L41 162 Z" fill="#ffcf6b" stroke="#6d1206" strokeWidth="1" />
      <path d="M588 170 h18 q4 0 4 4 t-4 4 h-22 Z" fill={paint('metal')} />
      <path d="M34 168 h22 v9 h-20 q-5 -4 -2 -9 Z" fill={paint('metal')} />
      <Wheel x={144} y={180} metal={paint('metal')} />
      <Wheel x={514} y={180} metal={paint('metal')} />
    </svg>
  );
};
