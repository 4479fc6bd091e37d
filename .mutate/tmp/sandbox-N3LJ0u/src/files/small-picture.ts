/** A picture made small for the sheet: upright, without what the camera wrote into it, such as the place. */
// @ts-nocheck


/** Longest side on the sheet, in pixels: some 90 mm wide at 280 to the inch. */
const LONGEST_SIDE = 1000;
/** More pixels than any camera has are no picture but a trap for memory. */
const MOST_PIXELS = 220_000_000;
const SECONDS = 30;

/** JPEG; `damaged` when the bytes are no picture that can be drawn, `no-library` where this computer has none for it. */
export async function smallPicture(bytes: Uint8Array): Promise<Buffer | 'damaged' | 'no-library'> {
  let sharp: typeof import('sharp').default;
  try {
    sharp = (await import('sharp')).default;
  } catch {
    return 'no-library';
  }
  try {
    // Without withMetadata nothing that the camera wrote is carried over; autoOrient turns the picture itself.
    return await sharp(bytes, { limitInputPixels: MOST_PIXELS, failOn: 'error', pages: 1 })
      .autoOrient()
      .resize({ width: LONGEST_SIDE, height: LONGEST_SIDE, fit: 'inside', withoutEnlargement: true })
      .flatten({ background: '#ffffff' })
      .jpeg({ quality: 76, mozjpeg: false })
      .timeout({ seconds: SECONDS })
      .toBuffer();
  } catch {
    return 'damaged';
  }
}
