import { plainWord } from '../../valuation/reading/words.ts';
import type { ImportKind } from './types.ts';

export interface OurColumn {
  name: string;
  required: boolean;
  help: string;
  /** Headings that other people give such a column. Common practice, no source. */
  known: string[];
}

const column = (name: string, help: string, known: string, required = false): OurColumn => ({
  name,
  required,
  help,
  known: known.split(',').filter(Boolean),
});

const maker = column('maker', 'who made it', 'make,manufacturer,brand,made by');
const series = column('series', 'the range in which it was sold', 'range,line,product line');
const casting = column(
  'casting',
  'name of the casting or of one of its releases',
  'car,model,item,description,name,title,casting name,vehicle,car name',
  true,
);
const releaseName = column('release_name', 'name under which it was sold', 'release,sold as,issue name');
const releaseYear = column(
  'release_year',
  'year of the release, such as 1969',
  'year,issue year,year of release,model year',
);
const colour = column(
  'colour',
  'name of the colour',
  'color,paint,paint colour,paint color,body colour,body color,col,colour name,color name',
);
const bodyFinish = column('body_finish', 'such as candy or enamel', 'finish type,paint type,body paint');
const basePaint = column(
  'base_paint',
  'none, front quarter, rear quarter or full',
  'base,base coat,underside paint,painted base,base colour,base color',
);
const rearEnd = column('rear_end', 'type of the rear end', 'rear,tail,rear type,rear end type,back end');
const features = [
  column('roof', 'such as black or none', 'top,roof type,roof colour,roof color'),
  column('interior', 'colour of the interior', 'seats,interior colour,interior color,inside'),
  column(
    'glazing',
    'tint of the glazing',
    'glass,windows,window tint,glass colour,glass color,windshield,windscreen',
  ),
  column('wheels', 'type of the wheels', 'wheel,wheel type,tyres,tires'),
  column('accessory', 'what belongs to it besides', 'accessories,extras,loose parts'),
  column('country', 'country on the base', 'origin,made in,country of origin,base country'),
];
const grade = column(
  'grade',
  'C1 to C10 in half points',
  'condition,cond,cond.,overall grade,overall condition,c grade,rating,c',
);
const finishState = column(
  'finish_state',
  'original, touched up, restored, customised or stripped',
  'finish,state,paint state,originality,restored?',
);

/**
 * The columns that each kind of import knows, in their order, with the other headings by which they are
 * recognised.
 */
export const ourColumns: Record<ImportKind, OurColumn[]> = {
  lot: [
    column(
      'inventory_number',
      'your number of the car; left out, the next free one is given',
      'no,no.,nr,nr.,number,#,id,inv,inv no,inv no.,inventory no,inventory no.,inventory,item no,item no.,item number,stock number',
    ),
    maker,
    series,
    casting,
    releaseName,
    releaseYear,
    colour,
    bodyFinish,
    basePaint,
    rearEnd,
    ...features,
    grade,
    finishState,
    column('status', 'kept, on the bench or donor', ''),
    column('location', 'where it is kept', 'place,where,shelf,box,drawer,stored,storage'),
    column('notes', 'anything else', 'note,comments,comment,remarks,remark,details'),
  ],
  reference: [
    maker,
    series,
    casting,
    releaseName,
    releaseYear,
    colour,
    bodyFinish,
    basePaint,
    rearEnd,
    ...features,
    column('rarity', 'common, uncommon, scarce or rare', 'scarcity,how rare'),
  ],
  sales: [
    column(
      'sold_on',
      'day of the sale',
      'sold,date,sale date,date sold,sold date,end date,ended,day,when,sale day',
      true,
    ),
    column(
      'price',
      'what it brought',
      'sold for,amount,sale price,hammer,hammer price,paid,value,realised,realized,sold price,total,price realised,price realized',
      true,
    ),
    column('currency', 'ISO 4217 code such as USD', 'cur,ccy,curr,curr.,money'),
    casting,
    releaseName,
    colour,
    basePaint,
    rearEnd,
    grade,
    finishState,
    column(
      'missing_parts',
      'parts that were missing, separated by semicolons',
      'missing,lacks,parts missing,incomplete',
    ),
    column(
      'reproduction_parts',
      'parts that were reproductions, separated by semicolons',
      'reproduction,repro,repro parts,reproductions,replaced parts',
    ),
    column(
      'source',
      'kind of source, such as auction or dealer',
      'venue,seen,seen at,where,where sold,place,market,seller',
    ),
    column(
      'reference',
      'what finds the record again',
      'ref,ref.,lot no,lot no.,link,url,auction lot,listing,invoice',
    ),
  ],
};

/** Our column for a heading: of the same name, or one that is commonly so headed; null where it is neither. */
export const recogniseHeading = (
  as: ImportKind,
  heading: string,
): { ours: string; how: 'same name' | 'recognised' } | null => {
  const word = plainWord(heading)
    .replace(/[:*]+$/, '')
    .trim();
  if (!word) return null;
  for (const our of ourColumns[as])
    if (plainWord(our.name) === word) return { ours: our.name, how: 'same name' };
  for (const our of ourColumns[as])
    if (our.known.includes(word)) return { ours: our.name, how: 'recognised' };
  return null;
};
