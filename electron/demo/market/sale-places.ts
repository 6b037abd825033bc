import type { Random } from '../random.ts';

/** Where a sale was seen, as a collector notes it: invented rooms, fairs and shops. */
const rooms: Record<string, string[]> = {
  USD: ['Millrace Rooms', 'Copper Street Auctions', 'Tollhouse Sale Rooms'],
  GBP: ['Wrenmoor Saleroom', 'Old Brewery Auctions'],
  EUR: ['Salle des Tilleuls', 'Auktion am Kornhaus'],
};
const fairs: Record<string, string[]> = {
  USD: ['Armory toy show', 'Fairground swap meet', 'Grange Hall toy show'],
  GBP: ['Corn Exchange toy fair', 'Racecourse swapmeet'],
  EUR: ['Foire aux jouets', 'Spielzeugbörse Stadthalle'],
};
const shops = ['The Tin Shelf', 'Lower Shelf Toys', 'Attic and Axle', 'Penny Counter'];

/**
 * Where an invented sale took place, as its record writes it; currencies have auction rooms and
 * fairs of their own.
 */
export const referenceFor = (random: Random, source: string, currency: string): string => {
  switch (source) {
    case 'auction':
      return `${random.pick(rooms[currency]!)}, lot ${random.whole(12, 940)}`;
    case 'fair':
      return `${random.pick(fairs[currency]!)}, table ${random.whole(1, 88)}`;
    case 'dealer':
      return `${random.pick(shops)}, list ${random.whole(4, 61)}`;
    case 'private':
      return random.pick([
        'by letter',
        'at the club evening',
        'swap with cash',
        'from a friend of the club',
        '',
      ]);
    default:
      return `listing ${random.whole(100_000, 999_999)}`;
  }
};
