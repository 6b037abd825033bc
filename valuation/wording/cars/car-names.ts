import { colourNow } from './disclosure-text.ts';

/** What is known of a car's name; nothing where it is not. */
interface Named {
  releaseName: string | null;
  casting: string | null;
  asWritten: { readonly casting?: string };
  inventoryNumber: string;
}

/**
 * What a car is called: the name it was sold under, else its casting, else what was written, else that
 * it is not known.
 */
export const carTitle = ({ releaseName, casting, asWritten, inventoryNumber }: Named): string =>
  releaseName || casting || asWritten.casting || `Unidentified car ${inventoryNumber}`;

/**
 * What a car wears: the colour recorded of it with the one it was made in, that of its variation, or the one
 * that was written of it.
 */
export const carColour = ({
  features,
  asWritten,
  wornColour,
}: {
  features: { colour: string };
  asWritten: { readonly colour?: string };
  wornColour: string;
}): string => colourNow(features.colour || asWritten.colour || '', wornColour);
