import { useId } from 'react';
import type { BasePaint } from '../../../valuation/words.ts';
import { readerWords } from '../words.ts';
import { gloss, isHex, paintedBase, shade, showsBase } from './lacquer.ts';
import classes from './lacquer-chip.module.css';

const sizes = {
  grid: { width: 24, height: 16, base: 4 },
  card: { width: 36, height: 24, base: 5 },
  large: { width: 72, height: 44, base: 8 },
};

const Swatch = ({
  hex,
  basePaint,
  size,
}: {
  hex: string | null;
  basePaint?: BasePaint | '' | null;
  size: keyof typeof sizes;
}) => {
  const id = useId();
  const { width, height, base } = sizes[size];
  const withBase = showsBase(basePaint);
  const painted = paintedBase(basePaint);
  const body = withBase ? height - base - 1 : height;
  const radius = size === 'large' ? 6 : 4;
  return (
    <svg className={classes.swatch} width={width} height={height} aria-hidden="true">
      <defs>
        <clipPath id={`${id}c`}>
          <rect width={width} height={height} rx={radius} />
        </clipPath>
        {hex ? (
          <linearGradient id={`${id}g`} x1="0" y1="0" x2="0" y2="1">
            {gloss(hex).map(stop => (
              <stop key={stop.at} offset={stop.at} stopColor={stop.colour} />
            ))}
          </linearGradient>
        ) : null}
      </defs>
      <g clipPath={`url(#${id}c)`}>
        {hex ? (
          <>
            <rect width={width} height={body} fill={`url(#${id}g)`} />
            <path
              d={`M${width * 0.1} ${body * 0.3} Q${width * 0.5} ${body * 0.04} ${width * 0.9} ${body * 0.22} L${width * 0.9} ${body * 0.34} Q${width * 0.5} ${body * 0.2} ${width * 0.1} ${body * 0.42} Z`}
              fill="#ffffff"
              opacity={0.34}
            />
          </>
        ) : (
          <rect className={classes.unknown} width={width} height={body} />
        )}
        {withBase ? (
          <>
            <rect className={classes.bare} y={height - base} width={width} height={base} />
            {painted ? (
              <rect
                x={painted.from * width}
                y={body - 0.5}
                width={(painted.to - painted.from) * width}
                height={height - body + 0.5}
                fill={hex ? shade(hex, -0.3) : 'var(--ink-soft)'}
              />
            ) : null}
          </>
        ) : null}
      </g>
      <rect
        className={hex ? classes.edge : classes.unknownEdge}
        x={0.5}
        y={0.5}
        width={width - 1}
        height={height - 1}
        rx={radius - 0.5}
      />
    </svg>
  );
};

const baseWords: Record<BasePaint, string> = {
  none: 'bare base',
  'front quarter': 'front quarter of the base painted',
  'rear quarter': 'rear quarter of the base painted',
  full: 'whole base painted',
};

/**
 * A variation's colour as a glossy chip with its name beside it. Beneath lies the base, front at the left:
 * bare metal, with the painted stretch joined to the body as a notch. An unknown colour is an empty chip;
 * unknown base paint shows no base.
 */
export const LacquerChip = ({
  name,
  swatch,
  basePaint,
  size = 'grid',
  nameless = false,
}: {
  name: string | null;
  /** `#rrggbb`, or null where the owner has chosen none yet. */
  swatch: string | null;
  basePaint?: BasePaint | '' | null;
  size?: keyof typeof sizes;
  /** Leaves the name to a neighbour; it is then still told to those who hear the screen. */
  nameless?: boolean;
}) => {
  const words = name?.trim() || `${readerWords().dialect.colour} unknown`;
  const base = showsBase(basePaint) ? `, ${baseWords[basePaint]}` : '';
  return (
    <span className={classes.chip} data-size={size} title={base ? `${words}${base}` : undefined}>
      <Swatch hex={isHex(swatch) ? swatch : null} basePaint={basePaint} size={size} />
      {nameless ? (
        <span className="heard">{words + base}</span>
      ) : (
        <span className={name?.trim() ? classes.name : classes.nameUnknown}>
          {words}
          <span className="heard">{base}</span>
        </span>
      )}
    </span>
  );
};
