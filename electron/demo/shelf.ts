import type { Row } from './content.ts';

/** A piece in the drawer; `fits` names the casting of which it is a part, as far as its owner has said that. */
interface Piece {
  name: string;
  inStock: number;
  unitMinor: number;
  notes: string;
  fits?: Pick<Row<'part'>, 'casting_id' | 'part' | 'originality' | 'grade_half'>;
}

const piece = (
  name: string,
  inStock: number,
  unitMinor: number,
  notes: string,
  fits?: Piece['fits'],
): Piece => ({ name, inStock, unitMinor, notes, ...(fits && { fits }) });

const drystone = 12;
const saltwhistle = 30;

/** What lies in the parts drawer, with what a piece cost. */
const stock: Piece[] = [
  piece('Hub, six-hole disc 10.4 mm, reproduction', 10, 95, 'A shade too bright; tone down with weak tea'),
  piece('Hub, six-hole disc 11.2 mm, reproduction', 6, 95, ''),
  piece('Hub, dished disc 10.4 mm, reproduction', 4, 110, ''),
  piece('Hub, slotted plate 11.2 mm, original', 3, 350, 'From donors, plating good on two'),
  piece('Hub, wire 10.4 mm, reproduction', 0, 160, 'Waiting on the caster'),
  piece('Axle wire 1.10 mm, per car', 24, 20, ''),
  piece('Glazing, closed car, clear', 3, 420, 'Vacuum-formed, trim to fit'),
  piece('Glazing, wedge, smoke', 1, 480, ''),
  piece('Hamper, cast resin', 2, 600, ''),
  piece('Roof beacon, cast resin', 1, 250, ''),
  piece('Label sheet, Night Patrol', 2, 150, 'Printed film; the originals were paper'),
  piece('Countersunk screw M1.6, pair', 18, 15, ''),
  piece('Wheels of a Drystone, all four', 1, 300, 'From a donor; plating good', {
    casting_id: drystone,
    part: 'wheels',
    originality: 'original',
    grade_half: 15,
  }),
  piece('Glazing of a Saltwhistle', 1, 380, 'Vacuum-formed, trim to fit', {
    casting_id: saltwhistle,
    part: 'glazing',
    originality: 'reproduction',
    grade_half: null,
  }),
];

/** The spare parts in the drawer as rows; cost of one in US cents. */
export const partRows: Row<'part'>[] = stock.map(({ name, inStock, unitMinor, notes, fits }, i) => ({
  id: i + 1,
  name,
  in_stock: inStock,
  unit_minor: unitMinor,
  currency: 'USD',
  notes,
  ...(fits ?? { casting_id: null, part: '', originality: '', grade_half: null }),
}));
