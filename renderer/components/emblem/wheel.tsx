const spokes = [0, 72, 144, 216, 288];

/** A five-spoke wheel of a toy: a wide tyre without tread, a bright rim, a riveted axle end. */
export const Wheel = ({ x, y, metal }: { x: number; y: number; metal: string }) => (
  <g transform={`translate(${x} ${y})`}>
    <circle r="38" fill="#1f2123" />
    <circle r="37" fill="none" stroke="#5a5d60" strokeWidth="1.4" />
    <circle r="25" fill={metal} />
    <circle r="21.5" fill="#33373a" />
    {spokes.map(turn => (
      <path
        key={turn}
        transform={`rotate(${turn})`}
        d="M-4.4 -4 L-3 -22 L3 -22 L4.4 -4 Z"
        fill={metal}
        stroke="#54585a"
        strokeWidth="0.6"
      />
    ))}
    <circle r="7" fill={metal} stroke="#54585a" strokeWidth="0.8" />
    <circle r="2.6" fill="#3d4144" />
  </g>
);
