// The program as the page calls it: unpacked once, run in workers, each run
// with a time limit.

import { XzReadableStream } from "xz-decompress";
import { toBytes } from "./pairs.js";
import { t } from "../text/language.js";

/** A run that takes longer is ended. The largest example takes a second on a slow phone. */
export const LIMIT_MS = 30_000;
/** Exit status of a run that was ended: the one that `timeout` gives. */
export const ENDED = 124;

/** Unpacks the program that this page carries: letters of xz of WebAssembly. */
export async function unpack(text, length) {
  const packed = new Blob([toBytes(text).subarray(0, length)]).stream();
  const answer = new Response(new XzReadableStream(packed), { headers: { "content-type": "application/wasm" } });
  return WebAssembly.compileStreaming(answer);
}

/** One worker; runs stand in line. */
export class Bench {
  /**
   * @param {WebAssembly.Module} program
   * @param {string} source of the worker
   */
  constructor(program, source) {
    this.program = program;
    this.source = source;
    this.line = [];
    this.now = null;
    this.count = 0;
  }

  /** Runs the program; resolves to {status, out, err, files} and never rejects for a run's sake. */
  run(args, files = {}, { limit = LIMIT_MS } = {}) {
    return new Promise((resolve, reject) => {
      this.line.push({ id: (this.count += 1), args, files, limit, resolve, reject });
      this.next();
    });
  }

  next() {
    if (this.now || this.line.length === 0) return;
    this.now = this.line.shift();
    this.worker ??= this.open();
    this.now.clock = setTimeout(() => this.end(), this.now.limit);
    const { id, args, files } = this.now;
    this.worker.postMessage({ id, args, files });
  }

  open() {
    const address = URL.createObjectURL(new Blob([this.source], { type: "text/javascript" }));
    const worker = new Worker(address);
    worker.onmessage = ({ data }) => this.done(data);
    worker.onerror = (event) => {
      event.preventDefault();
      this.worker?.terminate();
      this.worker = null;
      if (this.now) this.done({ id: this.now.id, error: event.message || t("the worker could not be started") });
    };
    worker.postMessage({ program: this.program });
    return worker;
  }

  done({ id, result, error }) {
    if (this.now?.id !== id) return;
    const { clock, resolve, reject } = this.now;
    clearTimeout(clock);
    this.now = null;
    if (result) resolve(result);
    else reject(new Error(error));
    this.next();
  }

  end() {
    this.worker.terminate();
    this.worker = null;
    const { limit, resolve } = this.now;
    this.now = null;
    resolve({
      status: ENDED,
      out: "",
      err: `${t("ended after {seconds} seconds without a result; nothing was written", { seconds: limit / 1000 })}\n`,
      files: {},
    });
    this.next();
  }
}
