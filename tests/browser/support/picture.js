// Pictures made for tests, and what light a screenshot gives off.

import { deflateSync } from 'node:zlib';

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

/** A PNG of the given size; `colour(x, y)` gives red, green and blue from 0 to 255. */
export function png(width, height, colour) {
  const stride = 1 + width * 3;
  const rows = Buffer.alloc(height * stride);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) rows.set(colour(x, y), y * stride + 1 + x * 3);
  }
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 2, 0, 0, 0], 8);
  return Buffer.concat([SIGNATURE, chunk('IHDR', head), chunk('IDAT', deflateSync(rows)), chunk('IEND', Buffer.alloc(0))]);
}

function chunk(kind, data) {
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  const body = Buffer.concat([Buffer.from(kind, 'latin1'), data]);
  const check = Buffer.alloc(4);
  check.writeUInt32BE(crc(body));
  return Buffer.concat([length, body, check]);
}

// The cyclic redundancy check of PNG (W3C, Portable Network Graphics Specification, annex D).
function crc(bytes) {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit += 1) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  return (sum ^ 0xffffffff) >>> 0;
}

/**
 * Reads a screenshot's pixels in `reader`, a page of its own. Gives the greatest red, green and blue of any pixel, how many
 * shades of red there are, and the first pixel that is lit in green or blue.
 */
export async function light(reader, screenshot) {
  return reader.evaluate(async (data) => {
    const picture = new Image();
    picture.src = `data:image/png;base64,${data}`;
    await picture.decode();
    const canvas = new OffscreenCanvas(picture.naturalWidth, picture.naturalHeight);
    const drawn = canvas.getContext('2d');
    drawn.drawImage(picture, 0, 0);
    const { data: pixels } = drawn.getImageData(0, 0, canvas.width, canvas.height);
    const found = { width: canvas.width, height: canvas.height, red: 0, green: 0, blue: 0, shades: 0, stray: null };
    const shades = new Set();
    for (let at = 0; at < pixels.length; at += 4) {
      const [red, green, blue] = pixels.subarray(at, at + 3);
      shades.add(red);
      if (red > found.red) found.red = red;
      if (green > found.green) found.green = green;
      if (blue > found.blue) found.blue = blue;
      if ((green || blue) && !found.stray) {
        found.stray = { x: (at / 4) % canvas.width, y: Math.floor(at / 4 / canvas.width), red, green, blue };
      }
    }
    found.shades = shades.size;
    return found;
  }, screenshot.toString('base64'));
}
