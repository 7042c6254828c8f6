/** What stands in a picture, from a camera or a file. */

import decodeQR from 'qr/decode.js';

/** Wider pictures tell no more and take long. */
const widest = 1600;

const canvas = document.createElement('canvas');

/** The text of the code in a picture; nothing where none can be read. */
export function codeIn(source: CanvasImageSource, width: number, height: number): string | undefined {
  const scale = Math.min(1, widest / Math.max(width, height));
  canvas.width = Math.round(width * scale);
  canvas.height = Math.round(height * scale);
  const context = canvas.getContext('2d', { willReadFrequently: true });
  if (!context || canvas.width === 0 || canvas.height === 0) return undefined;
  context.drawImage(source, 0, 0, canvas.width, canvas.height);
  try {
    return decodeQR(context.getImageData(0, 0, canvas.width, canvas.height));
  } catch {
    return undefined; // there is none, or it is not sharp
  }
}

/** The text of the code in a file. */
export async function codeInFile(file: File): Promise<string | undefined> {
  const bitmap = await createImageBitmap(file).catch(() => undefined);
  if (!bitmap) return undefined;
  const text = codeIn(bitmap, bitmap.width, bitmap.height);
  bitmap.close();
  return text;
}
