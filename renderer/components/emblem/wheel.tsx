const windows = [30, 90, 150, 210, 270, 330];

/** A wheel of a toy, a bright disc with six round windows: a wide tyre without tread, a riveted axle end. */
export const Wheel = ({ x, y, metal }: { x: number; y: number; metal: string }) => (
  <g transform={`translate(${x} ${y})`}>
    <circle r="38" fill="#1f2123" />
    <circle r="37" fill="none" stroke="#5a5d60" strokeWidth="1.4" />
    <circle r="25" fill={metal} />
    <circle r="21.5" fill={metal} stroke="#54585a" strokeWidth="0.8" />
    {windows.map(turn => (
      <circle
        key={turn}
        transform={`rotate(${turn})`}
        cx="13.6"
        r="4.6"
        fill="#2b2e31"
        stroke="#f4f4f2"
        strokeWidth="0.7"
      />
    ))}
    <circle r="6" fill={metal} stroke="#54585a" strokeWidth="0.8" />
    <circle r="2.4" fill="#3d4144" />
  </g>
);
