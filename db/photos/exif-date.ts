/**
 * Tags of the Exif standard (CIPA DC-008): the sub-directory, when a picture was taken, when
 * its file was made.
 */
const exifDirectory = 0x8769;
const dateTimeOriginal = 0x9003;
const dateTime = 0x0132;

/**
 * When a photograph was taken, as its camera wrote it, from the Exif block of its file:
 * "2024-05-31T17:45:00", the day alone where that is all there is, or null where the block has none, is cut
 * short, or says an impossible day.
 */
export const exifTime = (block: Uint8Array | undefined): string | null => {
  if (!block) return null;
  const whole = Buffer.from(block.buffer, block.byteOffset, block.byteLength);
  const bytes = whole.toString('latin1', 0, 6) === 'Exif\0\0' ? whole.subarray(6) : whole;
  const little = bytes.toString('latin1', 0, 2) === 'II';
  const u16 = (at: number) => (little ? bytes.readUInt16LE(at) : bytes.readUInt16BE(at));
  const u32 = (at: number) => (little ? bytes.readUInt32LE(at) : bytes.readUInt32BE(at));
  const entry = (directory: number, tag: number): number | undefined => {
    const count = u16(directory);
    for (let i = 0; i < count; i++) {
      const at = directory + 2 + i * 12;
      if (u16(at) === tag) return at;
    }
    return undefined;
  };
  const dateAt = (at: number | undefined): string | null => {
    if (at === undefined) return null;
    const start = u32(at + 8);
    const match = /^(\d{4}):(\d\d):(\d\d)(?: ([01]\d|2[0-3]):([0-5]\d):([0-5]\d))?/.exec(
      bytes.toString('latin1', start, start + 19),
    );
    if (!match) return null;
    const day = `${match[1]}-${match[2]}-${match[3]}`;
    const read = new Date(`${day}T00:00:00Z`);
    if (Number.isNaN(read.getTime()) || read.toISOString().slice(0, 10) !== day) return null;
    return match[4] === undefined ? day : `${day}T${match[4]}:${match[5]}:${match[6]}`;
  };
  try {
    const first = u32(4);
    const sub = entry(first, exifDirectory);
    return (
      (sub === undefined ? null : dateAt(entry(u32(sub + 8), dateTimeOriginal))) ??
      dateAt(entry(first, dateTime))
    );
  } catch (error) {
    // Reading beyond the end of a block that is cut short; anything else is a fault of ours.
    if (error instanceof RangeError) return null;
    throw error;
  }
};

/** The day a photograph was taken, as `exifTime` reads it. */
export const exifDate = (block: Uint8Array | undefined): string | null =>
  exifTime(block)?.slice(0, 10) ?? null;
