// Changes a YAML text by key path and leaves every other letter as it stands:
// comments, order, spaces and line ends are the writer's own.
//
// A path is a list of keys and list numbers: ["camps", 0, "elevation"]. A value
// is a text, or a list or mapping of values.
import { isAlias, isMap, isPair, isScalar, isSeq, parseDocument } from "yaml";

/** Reads without guessing: every scalar stays the text that was written. */
export function read(text) {
  return parseDocument(text, { schema: "failsafe", keepSourceTokens: true, prettyErrors: false });
}

/** Whether the text can be changed by key: it has no slip of form in it. */
export function isSound(document) {
  return document.errors.length === 0 && (document.contents === null || isMap(document.contents));
}

/** The value at a path: text, list, mapping, or undefined where there is none. */
export function valueAt(document, path) {
  const node = nodeAt(document, path);
  return node === undefined ? undefined : plain(node, document);
}

function plain(node, document) {
  const real = isAlias(node) ? node.resolve(document) : node;
  if (real === null || real === undefined) return "";
  if (isSeq(real)) return real.items.map((item) => plain(item, document));
  if (isMap(real)) {
    return Object.fromEntries(real.items.map((pair) => [keyOf(pair), plain(pair.value, document)]));
  }
  return real.value ?? "";
}

/** `key` as the program reads keys: a space, a hyphen and an underscore are the same. */
export function sameKey(key) {
  return String(key).trim().toLowerCase().replace(/[\s_-]+/g, "_");
}

function keyOf(pair) {
  return sameKey(isScalar(pair.key) ? pair.key.value : pair.key);
}

function pairOf(map, key) {
  return map.items.find((pair) => keyOf(pair) === sameKey(key));
}

function nodeAt(document, path) {
  let node = document.contents ?? undefined;
  for (const step of path) {
    if (isMap(node) && typeof step === "string") {
      const pair = pairOf(node, step);
      if (!pair) return undefined;
      node = pair.value ?? null;
    } else if (isSeq(node) && typeof step === "number") {
      node = node.items[step];
    } else {
      return undefined;
    }
  }
  return node;
}

/** The text with a value put at a path, or taken away where the value is undefined. */
export function put(text, path, value) {
  const document = read(text);
  if (!isSound(document)) throw new Error("the text has a slip of form; mend it first");
  if (value === undefined) return remove(text, document, path);
  const eol = text.includes("\r\n") ? "\r\n" : "\n";
  const node = nodeAt(document, path);
  if (node !== undefined) return replace(text, document, path, node, value, eol);
  return add(text, document, path, value, eol);
}

/** Where a path stands in the text, as [start, end]: its value, or its key where it is empty. */
export function placeOf(document, path) {
  for (let length = path.length; length > 0; length -= 1) {
    const found = nodeAt(document, path.slice(0, length));
    if (found?.range) return [found.range[0], found.range[1]];
    const pair = pairAt(document, path.slice(0, length));
    if (pair) return [pair.key.range[0], pair.key.range[1]];
  }
  return undefined;
}

function pairAt(document, path) {
  const map = nodeAt(document, path.slice(0, -1));
  return isMap(map) ? pairOf(map, path.at(-1)) : undefined;
}

function replace(text, document, path, node, value, eol) {
  const isPlain = typeof value === "string";
  if (node === null || !node.range || (isScalar(node) && node.range[0] === node.range[1])) {
    const pair = pairAt(document, path);
    if (!pair) return text;
    const colon = text.indexOf(":", pair.key.range[1]) + 1;
    return splice(text, colon, colon, written(value, column(text, pair.key.range[0]) + 2, eol, false));
  }
  if (isPlain && isScalar(node)) {
    if (node.value === value) return text;
    // a block text ends with the line end before what follows
    const end = node.type === "BLOCK_LITERAL" || node.type === "BLOCK_FOLDED" ? lastOf(text, node) : node.range[1];
    return splice(text, node.range[0], end, scalar(value, inFlow(document, path)));
  }
  const pair = pairAt(document, path);
  if (!pair) {
    return splice(text, node.range[0], lastOf(text, node), inlineOf(value, column(text, node.range[0]), eol));
  }
  const colon = text.indexOf(":", pair.key.range[1]) + 1;
  return splice(text, colon, lastOf(text, node), written(value, column(text, pair.key.range[0]) + 2, eol, inFlow(document, path)));
}

function add(text, document, path, value, eol) {
  let depth = path.length - 1;
  let holder;
  for (; depth >= 0; depth -= 1) {
    holder = depth === 0 ? document.contents : nodeAt(document, path.slice(0, depth));
    if (isMap(holder) || isSeq(holder)) break;
    if (holder !== undefined && depth > 0) {
      // a word stands where a block is wanted (`menu: boil only`): the block takes its place
      return put(text, path.slice(0, depth), nested(path.slice(depth), value));
    }
  }
  const rest = path.slice(Math.max(depth, 0));
  if (!holder || !(isMap(holder) || isSeq(holder)) || holder.items.length === 0) {
    if (depth > 0) return put(text, path.slice(0, depth), nested(rest, value));
    const start = text === "" || text.endsWith("\n") ? text : text + eol;
    return start + pairLines(rest[0], nested(rest.slice(1), value), 0, eol) + eol;
  }
  if (holder.flow) {
    const end = holder.range[1] - 1;
    const more = isMap(holder) ? flowPair(rest, value) : flowOf(nested(rest.slice(1), value));
    return splice(text, end, end, `, ${more}`);
  }
  const last = holder.items.at(-1);
  const first = isPair(holder.items[0]) ? holder.items[0].key : holder.items[0];
  const at = endOfLine(text, lastOf(text, isPair(last) ? (last.value ?? last.key) : last));
  let more;
  if (isMap(holder)) {
    more = pairLines(rest[0], nested(rest.slice(1), value), column(text, first.range[0]), eol);
  } else {
    const dash = dashBefore(text, first.range[0]);
    more = `${" ".repeat(dash)}- ${inlineOf(nested(rest.slice(1), value), dash + 2, eol)}`;
  }
  const before = at > 0 && text[at - 1] !== "\n" ? eol : "";
  return splice(text, at, at, before + more + (before ? "" : eol));
}

function remove(text, document, path) {
  const key = path.at(-1);
  const holder = path.length === 1 ? document.contents : nodeAt(document, path.slice(0, -1));
  if (!isMap(holder) && !isSeq(holder)) return text;
  const at = isMap(holder) ? holder.items.findIndex((pair) => keyOf(pair) === sameKey(key)) : key;
  const item = holder.items[at];
  if (item === undefined) return text;
  if (holder.items.length === 1 && path.length > 1) return remove(text, document, path.slice(0, -1));
  const from = isPair(item) ? item.key.range[0] : item.range[0];
  const value = isPair(item) ? (item.value ?? item.key) : item;
  if (holder.flow) return removeFlow(text, holder, at, from, lastOf(text, value));
  const to = endOfLine(text, lastOf(text, value));
  const line = startOfLine(text, from);
  const lead = text.slice(line, from);
  if (isMap(holder) && lead.includes("-")) {
    // first key of a list's item: the next key moves up behind the dash
    const next = holder.items[at + 1];
    if (next) return splice(text, from, next.key.range[0], "");
  }
  return splice(text, line, to, "");
}

function removeFlow(text, holder, at, from, to) {
  const next = holder.items[at + 1];
  if (next) return splice(text, from, isPair(next) ? next.key.range[0] : next.range[0], "");
  const before = holder.items[at - 1];
  if (!before) return splice(text, from, to, "");
  return splice(text, lastOf(text, isPair(before) ? (before.value ?? before.key) : before), to, "");
}

function splice(text, from, to, more) {
  return text.slice(0, from) + more + text.slice(to);
}

function startOfLine(text, at) {
  return text.lastIndexOf("\n", at - 1) + 1;
}

function endOfLine(text, at) {
  if (at > 0 && text[at - 1] === "\n") return at;
  const end = text.indexOf("\n", at);
  return end < 0 ? text.length : end + 1;
}

function column(text, at) {
  return at - startOfLine(text, at);
}

function dashBefore(text, at) {
  return column(text, text.lastIndexOf("-", at - 1));
}

/** The end of the last letter of a node, without spaces, comments and line ends after it. */
function lastOf(text, node) {
  if (isScalar(node) || isAlias(node) || node.flow) {
    const isBlock = node.type === "BLOCK_LITERAL" || node.type === "BLOCK_FOLDED";
    if (!isBlock) return node.range[1];
    let end = node.range[1];
    while (end > node.range[0] && /\s/.test(text[end - 1])) end -= 1;
    return end;
  }
  const last = node.items.at(-1);
  if (last === undefined) return node.range[1];
  if (!isPair(last)) return lastOf(text, last);
  if (last.value === null || last.value === undefined || last.value.range[0] === last.value.range[1]) {
    return text.indexOf(":", last.key.range[1]) + 1;
  }
  return lastOf(text, last.value);
}

function inFlow(document, path) {
  return path.some((_, depth) => nodeAt(document, path.slice(0, depth))?.flow === true);
}

function nested(path, value) {
  return path.reduceRight((inside, step) => (typeof step === "number" ? [inside] : { [step]: inside }), value);
}

/** A value after `key:`, a space or a line end before it. */
function written(value, indent, eol, flow) {
  if (typeof value === "string") return ` ${scalar(value, flow)}`;
  if (flow) return ` ${flowOf(value)}`;
  return eol + blockOf(value, indent, eol);
}

function blockOf(value, indent, eol) {
  return " ".repeat(indent) + inlineOf(value, indent, eol);
}

/** A block whose first line has its indent already. */
function inlineOf(value, indent, eol) {
  if (typeof value === "string") return scalar(value, false);
  const space = " ".repeat(indent);
  const lines = Array.isArray(value)
    ? value.map((item) => `- ${inlineOf(item, indent + 2, eol)}`)
    : Object.entries(value).map(([key, inside]) => pairLines(key, inside, indent, eol).slice(indent));
  return lines.join(eol + space);
}

function pairLines(key, value, indent, eol) {
  return `${" ".repeat(indent)}${scalar(String(key), false)}:${written(value, indent + 2, eol, false)}`;
}

function flowPair(path, value) {
  return `${scalar(String(path[0]), true)}: ${flowOf(nested(path.slice(1), value))}`;
}

function flowOf(value) {
  if (typeof value === "string") return scalar(value, true);
  if (Array.isArray(value)) return `[${value.map(flowOf).join(", ")}]`;
  return `{${Object.entries(value).map(([key, inside]) => flowPair([key], inside)).join(", ")}}`;
}

/** A text as a YAML scalar: bare where it reads back as the same text, else in quotes. */
export function scalar(value, flow) {
  const isBare =
    value !== "" &&
    value === value.trim() &&
    // what starts as something else in YAML, holds a comment or a key, or is no printable letter
    !/^[-?:,[\]{}#&*!|>'"%@`~]/.test(value.replace(/^-(?=[\d.])/, "")) &&
    !/: |:$| #|[\u0000-\u001f\u007f\u0085\u2028\u2029\ufeff]/.test(value) &&
    !/^(---|\.\.\.)/.test(value) &&
    !(flow && /[,[\]{}]/.test(value)) &&
    !/^(null|Null|NULL|~)$/.test(value);
  if (isBare) return value;
  return JSON.stringify(value)
    .replace(/\u007f/g, "\\x7f")
    .replace(/\u0085/g, "\\N")
    .replace(/\u2028/g, "\\L")
    .replace(/\u2029/g, "\\P")
    .replace(/\ufeff/g, "\\uFEFF");
}

/** The text with a top key that holds a text of several lines, as a block; undefined takes the key away. */
export function putBlock(text, key, value) {
  // empty lines at the end were the block's
  const without = put(text, [key], undefined).replace(/\n\n+$/, "\n");
  if (value === undefined) return without;
  const start = without === "" || without.endsWith("\n") ? without : `${without}\n`;
  // a first line that starts with spaces has to be told apart from the block's own indent
  const mark = /^\s/.test(value) ? "|2" : "|";
  const tail = /\n\n+$/.test(value) ? "+" : value.endsWith("\n") ? "" : "-";
  return `${start}${key}: ${mark}${tail}\n${value.replace(/\n$/, "").split("\n").map((line) => (line === "" ? "" : `  ${line}`)).join("\n")}\n`;
}
