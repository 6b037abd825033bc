/** Where things are put away, as people say it. Common practice, no source. */
const places =
  'loft|attic|tin|box|shoebox|drawer|shelf|shelves|cabinet|display|case|tray|crate|garage|cupboard|closet|wardrobe|dresser|bookcase|sideboard|suitcase|rack|room|bedroom|basement|shed|office|study|hallway|vitrine|regal|kiste|schublade|schrank|keller|' +
  'etagere|étagère|boite|boîte|tiroir|lade|kast|doos|zolder';
const beside =
  'top|bottom|upper|lower|middle|left|right|front|back|side|row|no|nr|number|in|on|the|of|by|near|under|above|behind|beside|next|to|at|my|our|big|small|old|door|window|wall|oben|unten|links|rechts|mitte|reihe|haut|bas|gauche|droite';

const place = new RegExp(`(?<!\\p{L})(?:${places})(?!\\p{L})`, 'iu');
const placeAlone = new RegExp(`^(?:(?:${places}|${beside}|\\d{1,3}|[a-z])(?:[^\\p{L}\\d]+|$))+$`, 'iu');

/** True where a text names a place in which things are put away, whatever else it says. */
export const namesPlace = (text: string): boolean => place.test(text);

/** A place by its number, and from whom or where what is in it came, as "Box 2 - from Dad". */
const placeWithOrigin =
  /^(?:box|tin|drawer|shelf|tray|crate|case|suitcase|bag|cabinet) (?:no\.? ?|nr\.? ?|#)?(?:\d{1,3}|[a-z])\W+(?:from|bought|given|inherited|came|ex)(?!\p{L})/iu;

/** True where it names one and no car, as "Garage shelf - top row" above the cars that stand there. */
export const isPlaceAlone = (text: string): boolean =>
  (text.length <= 60 && namesPlace(text) && placeAlone.test(text.trim())) ||
  placeWithOrigin.test(text.trim());
