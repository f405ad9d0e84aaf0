// A photo as it is kept and sent: a JPEG of at most 1600 px and 900 KB, drawn anew on a canvas, which leaves out
// whatever the camera wrote into the file (place, time, device). In: any picture that the browser can show. Refuses what
// is no picture.

import { sha256 } from '@noble/hashes/sha2.js';
import { newId } from '../wire/uuid';
import type { TakenPhoto } from './entered';

const SIDE_PX_MAX = 1600;
const BYTES_MAX = 900 * 1024;
const QUALITIES = [0.85, 0.75, 0.6, 0.45];
const SHRINK = 0.7;
const SHRINKS_MAX = 6;

/** The file is no picture that this browser can show. */
export class NoPicture extends Error {}

/** Width and height within the longest side, in the same proportion, whole pixels. */
export function fitted(width: number, height: number, sideMax = SIDE_PX_MAX): { width: number; height: number } {
  const scale = Math.min(1, sideMax / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * scale)), height: Math.max(1, Math.round(height * scale)) };
}

export function hexOf(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** SHA-256 in 64 lower-case hexadecimal digits; without a secure context browsers have none of their own. */
export async function digestOf(bytes: ArrayBuffer): Promise<string> {
  const subtle = crypto.subtle as SubtleCrypto | undefined;
  return hexOf(subtle ? new Uint8Array(await subtle.digest('SHA-256', bytes)) : sha256(new Uint8Array(bytes)));
}

/** Upright, as the camera was held. */
async function pictureOf(file: Blob): Promise<ImageBitmap> {
  try {
    return await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch (error) {
    throw new NoPicture(String(error));
  }
}

function drawn(picture: ImageBitmap, sideMax: number): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  Object.assign(canvas, fitted(picture.width, picture.height, sideMax));
  canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return canvas;
}

function jpegOf(canvas: HTMLCanvasElement, quality: number): Promise<Blob | null> {
  return new Promise((resolve) => canvas.toBlob(resolve, 'image/jpeg', quality));
}

/** The best quality that is small enough, else smaller. */
async function smallJpeg(picture: ImageBitmap): Promise<Blob> {
  for (let shrinks = 0, side = SIDE_PX_MAX; shrinks < SHRINKS_MAX; shrinks += 1, side *= SHRINK) {
    const canvas = drawn(picture, side);
    for (const quality of QUALITIES) {
      const jpeg = await jpegOf(canvas, quality);
      if (jpeg !== null && jpeg.size <= BYTES_MAX) return jpeg;
    }
  }
  throw new NoPicture('the picture could not be made small enough');
}

/** Throws NoPicture. */
export async function takePhoto(file: Blob): Promise<TakenPhoto> {
  const picture = await pictureOf(file);
  const jpeg = await smallJpeg(picture);
  picture.close();
  const bytes = await jpeg.arrayBuffer();
  return { id: newId(), sha256: await digestOf(bytes), bytes };
}
