import type sharpModule from 'sharp';

/**
 * libvips takes its memory when it is loaded, so it is loaded for the first photograph and keeps no pictures.
 */
export const loadSharp = async (): Promise<typeof sharpModule> => {
  const { default: sharp } = await import('sharp');
  sharp.cache(false);
  return sharp;
};
