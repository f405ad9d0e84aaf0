// The device's camera and what its pictures say. Browsers with a reader of codes of their own use it; for the others one
// comes along, loaded only here.

/** Why there is no picture. */
export type CameraTrouble = 'no secure context' | 'no camera' | 'not allowed' | 'in use' | 'no reader';

export class NoCamera extends Error {
  constructor(readonly why: CameraTrouble) {
    super(why);
  }
}

/** What is read in a picture of the video now; null when nothing is. */
export type ReadFrame = (video: HTMLVideoElement) => Promise<string | null>;

const WANTED: MediaStreamConstraints = {
  video: { facingMode: { ideal: 'environment' }, width: { ideal: 1280 }, height: { ideal: 720 } },
};
const TROUBLES: Readonly<Record<string, CameraTrouble>> = {
  NotAllowedError: 'not allowed',
  SecurityError: 'not allowed',
  NotReadableError: 'in use',
};

/** The camera at the back where there is one. Throws NoCamera. */
export async function openCamera(): Promise<MediaStream> {
  if (!window.isSecureContext) throw new NoCamera('no secure context');
  const devices = navigator.mediaDevices as MediaDevices | undefined;
  if (!devices?.getUserMedia) throw new NoCamera('no camera');
  try {
    return await devices.getUserMedia(WANTED);
  } catch (error) {
    throw new NoCamera(TROUBLES[error instanceof Error ? error.name : ''] ?? 'no camera');
  }
}

export function closeCamera(stream: MediaStream): void {
  for (const track of stream.getTracks()) track.stop();
}

/** May the camera be opened without asking the person (again)? */
export async function isAllowed(): Promise<boolean> {
  try {
    return (await navigator.permissions.query({ name: 'camera' as PermissionName })).state === 'granted';
  } catch {
    return false;
  }
}

interface CodeDetector {
  detect(source: HTMLVideoElement): Promise<Array<{ rawValue: string }>>;
}
interface CodeDetectorMaker {
  new (options: { formats: string[] }): CodeDetector;
  getSupportedFormats(): Promise<string[]>;
}

async function ownReader(): Promise<ReadFrame | null> {
  const Maker = (window as { BarcodeDetector?: CodeDetectorMaker }).BarcodeDetector;
  if (!Maker || !(await Maker.getSupportedFormats()).includes('qr_code')) return null;
  const detector = new Maker({ formats: ['qr_code'] });
  return async (video) => (await detector.detect(video))[0]?.rawValue ?? null;
}

/** A side longer than this only takes time: a label fills a good part of the picture. */
const SIDE_PX_MAX = 800;
/** For the tries that make a smudged or slanted code readable. */
const TRIES_MS = 60;

async function broughtReader(): Promise<ReadFrame> {
  const { default: decode } = await import('qr/decode.js');
  const canvas = document.createElement('canvas');
  const brush = canvas.getContext('2d', { willReadFrequently: true });
  return (video) => {
    const scale = Math.min(1, SIDE_PX_MAX / Math.max(video.videoWidth, video.videoHeight));
    canvas.width = Math.round(video.videoWidth * scale);
    canvas.height = Math.round(video.videoHeight * scale);
    if (!brush || canvas.width === 0) return Promise.resolve(null);
    brush.drawImage(video, 0, 0, canvas.width, canvas.height);
    try {
      const picture = brush.getImageData(0, 0, canvas.width, canvas.height);
      return Promise.resolve(decode(picture, { timeLimit: TRIES_MS }));
    } catch {
      return Promise.resolve(null); // There is no code in this picture.
    }
  };
}

/** Throws NoCamera where the reader cannot be loaded. */
export async function openReader(): Promise<ReadFrame> {
  const own = await ownReader().catch(() => null);
  if (own !== null) return own;
  return broughtReader().catch(() => {
    throw new NoCamera('no reader');
  });
}
