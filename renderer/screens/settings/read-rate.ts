/** A rate as someone types it, "1.16" or "1,16", as a decimal string above nothing; null where it is none. */
export const readRate = (text: string): string | null => {
  const bare = text.trim().replace(',', '.');
  if (!/^\d+(\.\d{1,9})?$/.test(bare) || Number(bare) <= 0) return null;
  return bare;
};
