// Writes x.gz and x.br beside each text file x of a built app, where that is smaller, so that the server never
// compresses. usage: node compress.mjs FOLDER
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { brotliCompressSync, constants, gzipSync } from 'node:zlib';

const TEXT = /\.(html|js|css|svg|json|webmanifest)$/;

function writeIfSmaller(path, bytes, plainSize) {
  if (bytes.length < plainSize) writeFileSync(path, bytes);
}

function compress(path) {
  const plain = readFileSync(path);
  const brotli = brotliCompressSync(plain, {
    params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: plain.length },
  });
  writeIfSmaller(`${path}.gz`, gzipSync(plain, { level: 9 }), plain.length);
  writeIfSmaller(`${path}.br`, brotli, plain.length);
}

const folder = process.argv[2];
for (const name of readdirSync(folder, { recursive: true })) {
  if (TEXT.test(name)) compress(join(folder, name));
}
