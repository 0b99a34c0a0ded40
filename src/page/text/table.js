// A table as spreadsheets save it: a row a line, cells parted by commas,
// semicolons or tabs, quotes round a cell that holds such a sign (RFC 4180).

const SIGNS = [",", ";", "\t"];

/** {sign, rows}: each row is {number, as the spreadsheet counts it, cells}. Blank lines are left out. */
export function readTable(text) {
  const lines = text.replace(/^\ufeff/, "").split(/\r?\n/);
  const count = (sign) => lines[0].split(sign).length;
  const sign = SIGNS.reduce((best, one) => (count(one) > count(best) ? one : best), ",");
  const rows = oneLineARow(lines, sign).map((line, at) => ({ number: at + 1, cells: cells(line, sign) })).filter((row) => row.cells.some((cell) => cell !== ""));
  return { sign, rows };
}

/** Lines that one row may be written on, as in the program. */
const MOST_LINES = 30;

/** A row a line: a line break in a quoted cell is a space then. */
function oneLineARow(lines, sign) {
  const rows = [];
  for (let at = 0; at < lines.length; at += 1) {
    let row = lines[at];
    let last = at;
    while (isOpen(row, sign) !== false && last + 1 < lines.length && last - at < MOST_LINES) {
      last += 1;
      row = `${row} ${lines[last]}`;
    }
    const isWhole = last > at && isOpen(row, sign) === false;
    rows.push(isWhole ? row : lines[at]);
    if (isWhole) at = last;
  }
  return rows;
}

/** Whether a quote is open at the row's end; null where one was closed before anything but a sign. */
function isOpen(row, sign) {
  let open = false;
  let start = true;
  for (let at = 0; at < row.length; at += 1) {
    if (open) {
      if (row[at] !== '"') continue;
      if (row[at + 1] === '"') at += 1;
      else if (at + 1 < row.length && row[at + 1] !== sign) return null;
      else open = false;
    } else if (row[at] === '"' && start) {
      open = true;
    }
    start = !open && (row[at] === sign || (start && row[at] === " "));
  }
  return open;
}

function cells(line, sign) {
  const found = [];
  let at = 0;
  while (at <= line.length) {
    let end = at;
    if (line[at] === '"') {
      let cell = "";
      for (end = at + 1; end < line.length; end += 1) {
        if (line[end] !== '"') cell += line[end];
        else if (line[end + 1] === '"') { cell += '"'; end += 1; } else break;
      }
      end = line.indexOf(sign, end + 1);
      found.push(cell.trim());
    } else {
      end = line.indexOf(sign, at);
      found.push(line.slice(at, end < 0 ? line.length : end).trim());
    }
    if (end < 0) return found;
    at = end + 1;
  }
  return found;
}

/** A row as a line of the file. */
export function writeRow(cells, sign) {
  return cells.map((cell) => (cell.includes(sign) || cell.includes('"') ? `"${cell.replace(/"/g, '""')}"` : cell)).join(sign);
}

const NAMED = { departure: ["departure", "departure name", "group"], base: ["base", "base trip", "trip file"], status: ["status", "cancelled", "canceled"] };

/** Which column has a meaning that the page must know, or -1. */
export function columnOf(heads, meaning) {
  return heads.findIndex((head) => NAMED[meaning].includes(head.toLowerCase().replace(/[\s_-]+/g, " ").trim()));
}

const OFF = ["cancelled", "canceled", "withdrawn", "yes"];

export function isOff(cell) {
  return OFF.includes((cell ?? "").toLowerCase());
}

/**
 * The same table with every departure but one called off, so that a run looks
 * at that one alone: rows keep their numbers, and the order of the days is
 * read from all of them as in the whole.
 */
export function alone(text, number) {
  const { sign, rows } = readTable(text);
  const [heads, ...rest] = rows;
  const at = columnOf(heads.cells, "status");
  const wide = heads.cells.length;
  const status = at < 0 ? wide : at;
  const lines = [];
  const put = (row, cell) => {
    const all = [...row.cells, ...Array(Math.max(0, wide - row.cells.length)).fill("")];
    if (at < 0 || cell !== null) all[status] = cell ?? "";
    lines[row.number - 1] = writeRow(all, sign);
  };
  put(heads, at < 0 ? "status" : null);
  for (const row of rest) put(row, row.number === number ? null : "cancelled");
  return `${Array.from(lines, (line) => line ?? "").join("\n")}\n`;
}
