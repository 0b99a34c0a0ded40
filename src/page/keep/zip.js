// A zip file without compression (PKWARE APPNOTE 6.3): the sheets are small,
// and the PDFs in it are compressed already. The same files give the same bytes.
import { t } from "../text/language.js";

const TABLE = Uint32Array.from({ length: 256 }, (_, number) => {
  let value = number;
  for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value >>> 0;
});

/** CRC-32 (ISO 3309). */
export function crc32(bytes) {
  let value = 0xffffffff;
  for (const byte of bytes) value = TABLE[(value ^ byte) & 0xff] ^ (value >>> 8);
  return (value ^ 0xffffffff) >>> 0;
}

/** 1 January 1980, the first day a zip file can name. */
const DAY = 0x0021;
const UTF8_NAMES = 0x0800;
const STORED = 0;
const VERSION = 20;

/** @param {Record<string, Uint8Array>} files by path @returns {Uint8Array} */
export function zip(files) {
  const encoder = new TextEncoder();
  const pieces = [];
  const list = [];
  let at = 0;
  for (const path of Object.keys(files).sort()) {
    const name = encoder.encode(path);
    const bytes = files[path];
    const facts = [VERSION, UTF8_NAMES, STORED, 0, DAY];
    const sizes = [crc32(bytes), bytes.length, bytes.length];
    const local = record(0x04034b50, facts, sizes, [name.length, 0]);
    list.push(record(0x02014b50, [VERSION, ...facts], sizes, [name.length, 0, 0, 0, 0], [0, at]), name);
    pieces.push(local, name, bytes);
    at += local.length + name.length + bytes.length;
  }
  const size = list.reduce((sum, piece) => sum + piece.length, 0);
  const count = list.length / 2;
  const end = record(0x06054b50, [0, 0, count, count], [size, at], [0]);
  return joined([...pieces, ...list, end]);
}

/** A signature, then numbers of two, four, two and four bytes. */
function record(signature, twos, fours, twosAfter, foursAfter = []) {
  const bytes = new Uint8Array(4 + 2 * (twos.length + twosAfter.length) + 4 * (fours.length + foursAfter.length));
  const view = new DataView(bytes.buffer);
  let at = 0;
  const put = (value, width) => {
    if (width === 2) view.setUint16(at, value, true);
    else view.setUint32(at, value, true);
    at += width;
  };
  put(signature, 4);
  for (const value of twos) put(value, 2);
  for (const value of fours) put(value, 4);
  for (const value of twosAfter) put(value, 2);
  for (const value of foursAfter) put(value, 4);
  return bytes;
}

function joined(pieces) {
  const all = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}

/** The files of a zip file that `zip` wrote, or that holds none but stored ones. */
export function unzip(bytes) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let end = bytes.length - 22;
  while (end >= 0 && view.getUint32(end, true) !== 0x06054b50) end -= 1;
  if (end < 0) throw new Error(t("this is no zip file"));
  const files = {};
  let at = view.getUint32(end + 16, true);
  for (let left = view.getUint16(end + 10, true); left > 0; left -= 1) {
    if (view.getUint32(at, true) !== 0x02014b50) throw new Error(t("this zip file is damaged"));
    const length = view.getUint16(at + 28, true);
    const path = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + length));
    const size = view.getUint32(at + 24, true);
    if (!path.endsWith("/")) {
      if (view.getUint16(at + 10, true) !== STORED) throw new Error(t("{path} is compressed: unpack the zip file and open the files", { path }));
      const local = view.getUint32(at + 42, true);
      const start = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
      files[path] = bytes.slice(start, start + size);
      if (crc32(files[path]) !== view.getUint32(at + 16, true)) throw new Error(t("{path} is damaged", { path }));
    }
    at += 46 + length + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return files;
}
