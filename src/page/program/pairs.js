// Bytes as printable letters: 13 bits in two of 93 letters, an eighth more than
// six bits a letter. The file that people mail must stay small.

/** From `!` to `~` without `<`, so that nothing can end the element that it stands in. */
const FIRST = 0x21;
const LESS_THAN = 0x3c;
const LETTERS = 93;
const BITS = 13;

function letter(number) {
  const code = number + FIRST;
  return code >= LESS_THAN ? code + 1 : code;
}

function number(code) {
  return (code > LESS_THAN ? code - 1 : code) - FIRST;
}

/** @param {Uint8Array} bytes @returns {string} */
export function toLetters(bytes) {
  const codes = new Uint8Array(Math.ceil((bytes.length * 8) / BITS) * 2);
  let at = 0;
  let held = 0;
  let bits = 0;
  const pair = (value) => {
    codes[at] = letter(Math.floor(value / LETTERS));
    codes[at + 1] = letter(value % LETTERS);
    at += 2;
  };
  for (const byte of bytes) {
    held |= byte << bits;
    bits += 8;
    if (bits >= BITS) {
      pair(held & 0x1fff);
      held >>>= BITS;
      bits -= BITS;
    }
  }
  if (bits > 0) pair(held);
  return new TextDecoder("latin1").decode(codes);
}

/** @param {string} text of `toLetters` @returns {Uint8Array} */
export function toBytes(text) {
  const bytes = new Uint8Array(Math.floor(((text.length / 2) * BITS) / 8));
  let at = 0;
  let held = 0;
  let bits = 0;
  for (let pair = 0; pair < text.length; pair += 2) {
    held |= (number(text.charCodeAt(pair)) * LETTERS + number(text.charCodeAt(pair + 1))) << bits;
    bits += BITS;
    while (bits >= 8) {
      bytes[at] = held & 0xff;
      at += 1;
      held >>>= 8;
      bits -= 8;
    }
  }
  return bytes.subarray(0, at);
}
