// One run of the program: arguments and files in, status, text and files out.
// A run gets a fresh instance and a folder of its own in memory, so that
// nothing of one run is left for the next.
import { ConsoleStdout, Directory, File, OpenFile, PreopenDirectory, WASI } from "@bjorn3/browser_wasi_shim";

/** Exit status of a run that broke off: the one a native program gives when it panics. */
export const BROKE_OFF = 101;

/**
 * @param {WebAssembly.Module} program
 * @param {string[]} args as on the command line, without the program's name
 * @param {Record<string, string | Uint8Array>} files by relative path
 * @returns {Promise<{status: number, out: string, err: string, files: Record<string, Uint8Array>}>}
 *   `files`: what the run wrote or changed
 */
export async function run(program, args, files) {
  const { root, given } = folder(files);
  const out = collector();
  const err = collector();
  const wasi = new WASI(
    ["leeside", ...args],
    // its words are read by the page and by people, not by a terminal
    ["NO_COLOR=1"],
    [new OpenFile(new File([])), out.stream, err.stream, new PreopenDirectory(".", root)],
    { debug: false },
  );
  const instance = await WebAssembly.instantiate(program, { wasi_snapshot_preview1: wasi.wasiImport });
  let status;
  try {
    status = wasi.start(instance);
  } catch (error) {
    status = BROKE_OFF;
    err.add(`\nthe program broke off: ${error.message ?? error}\n`);
  }
  return { status, out: out.text(), err: err.text(), files: written(root, given) };
}

/** Output comes in pieces that may end in the middle of a letter. */
function collector() {
  const decoder = new TextDecoder();
  let text = "";
  return {
    stream: new ConsoleStdout((bytes) => {
      text += decoder.decode(bytes, { stream: true });
    }),
    add(more) {
      text += more;
    },
    text: () => text + decoder.decode(),
  };
}

/** The run's current folder, and the bytes that were put there by path. */
function folder(files) {
  const encoder = new TextEncoder();
  const root = new Map();
  const given = new Map();
  for (const [path, content] of Object.entries(files ?? {})) {
    const parts = path.split("/").filter((part) => part !== "" && part !== ".");
    const name = parts.pop();
    if (name === undefined || parts.includes("..") || name === "..") {
      throw new TypeError(`'${path}' is no path inside the folder of the run`);
    }
    let inside = root;
    for (const part of parts) {
      let next = inside.get(part);
      if (next === undefined) {
        next = new Directory(new Map());
        inside.set(part, next);
      } else if (!(next instanceof Directory)) {
        throw new TypeError(`'${path}' lies in a file`);
      }
      inside = next.contents;
    }
    const bytes = typeof content === "string" ? encoder.encode(content) : new Uint8Array(content);
    const file = new File(bytes);
    inside.set(name, file);
    given.set(file, file.data);
  }
  return { root, given };
}

function written(inside, given, before = "", found = {}) {
  for (const [name, entry] of inside) {
    if (entry instanceof Directory) written(entry.contents, given, `${before}${name}/`, found);
    else if (given.get(entry) !== entry.data) found[before + name] = entry.data;
  }
  return found;
}
