import classes from './photo.module.css';
import { type PhotoSize, usePhoto } from './use-photo.ts';

/** A car in outline, for where a photograph will be. */
const Outline = () => (
  <svg className={classes.outline} viewBox="0 0 120 60" aria-hidden="true">
    <path d="M8 42 Q6 33 16 31 L34 28 Q44 15 58 15 L76 15 Q88 15 96 28 L108 31 Q115 33 113 42 L104 42 A9 9 0 0 0 86 42 L37 42 A9 9 0 0 0 19 42 Z" />
    <circle cx="28" cy="43" r="6.5" />
    <circle cx="95" cy="43" r="6.5" />
  </svg>
);

/**
 * A photograph from the collection by its hash; without one, or while it loads, a drawn outline.
 * `fit="cover"` fills a fixed box (grid, wall), `fit="contain"` shows all of it.
 */
export const Photo = ({
  sha256,
  size = 'thumbnail',
  alt,
  fit = 'cover',
  width,
  height,
}: {
  sha256: string | null;
  size?: PhotoSize;
  /** What it shows; empty where the text beside it says so already. */
  alt: string;
  fit?: 'cover' | 'contain';
  width?: number | string;
  height?: number | string;
}) => {
  const { url, missing } = usePhoto(sha256, size);
  const box = { width: width ?? '100%', height };
  if (url)
    return (
      <img
        className={classes.photo}
        style={{ ...box, objectFit: fit }}
        src={url}
        alt={alt}
        draggable={false}
        decoding="async"
      />
    );
  return (
    <span
      className={classes.place}
      style={box}
      data-missing={missing || undefined}
      aria-busy={(sha256 !== null && !missing) || undefined}
    >
      <Outline />
      {missing ? <span className={classes.lost}>photograph missing</span> : null}
      {sha256 ? null : <span className="heard">no photograph</span>}
    </span>
  );
};
