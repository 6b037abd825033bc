import type { PathPoint, Point } from '../geometry.ts';

/** A casting seen from its near side, in hundredths of its length; the nose is on the left. */
export interface Shape {
  /** Upper outline of body and roof, from the lower front corner over the car to the lower rear corner. */
  outline: PathPoint[];
  /** The edge between flank and upper surfaces, from nose to tail. */
  belt: PathPoint[];
  /**
   * Upper edge of the roof from the foot of the windscreen to the foot of the rear window;
   * none on an open car.
   */
  roof: PathPoint[] | null;
  /** Near-side windows. */
  windows: Point[][];
  /** Lines cut into the flank: doors, bonnet, tail. */
  seams: PathPoint[][];
  /** A raised line along the flank that catches the light. */
  crease: PathPoint[];
  axles: [front: number, rear: number];
  radii: [front: number, rear: number];
  /** False for wheels that stand free of the body. */
  arches: boolean;
  sill: number;
  /** True where the flank is folded along a line, false where it is rounded. */
  folded: boolean;
  /** How far from nose and tail the body begins to turn in. */
  noseTurn: number;
  headlamp: Point;
  tailLamp: Point;
  /** Where the seats are, and how high their backs end. */
  seats: { x: number; top: number }[];
  wheelHub: Point | null;
  /** Load bed of a pickup: from and to, and its rail. */
  bed: { from: number; to: number; rail: number; floor: number } | null;
  /** Foot and head of the windscreen on an open car. */
  screen: { foot: Point; head: Point } | null;
  /** Where an accessory goes: on the roof or on the bonnet. */
  roofSpot: Point;
  bonnetSpot: Point;
  deckSpot: Point;
}
