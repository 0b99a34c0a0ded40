// As much of WebDriver BiDi (W3C) as the tests need to drive Firefox, over as
// much of a WebSocket (RFC 6455) as it needs.
import { spawn } from "node:child_process";
import { createHash, randomBytes } from "node:crypto";
import { mkdtempSync } from "node:fs";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** Starts Firefox without a window; answers {send(method, params), end()}. */
export async function firefox(binary) {
  const profile = mkdtempSync(join(tmpdir(), "leeside-firefox-"));
  const child = spawn(binary, ["--headless", "--no-remote", "--profile", profile, "--remote-debugging-port", "0"], { stdio: ["ignore", "ignore", "pipe"] });
  const port = await new Promise((done, fail) => {
    let said = "";
    child.stderr.on("data", (part) => {
      said += part;
      const found = said.match(/WebDriver BiDi listening on ws:\/\/127\.0\.0\.1:(\d+)/);
      if (found) done(Number(found[1]));
    });
    child.on("exit", () => fail(new Error(`firefox ended:\n${said}`)));
    child.on("error", fail);
  });
  const wire = await socket(port, "/session");
  const waiting = new Map();
  wire.onText = (text) => {
    const message = JSON.parse(text);
    const wait = waiting.get(message.id);
    if (!wait) return;
    waiting.delete(message.id);
    if (message.type === "error") wait.fail(new Error(`${message.error}: ${message.message}`));
    else wait.done(message.result);
  };
  let count = 0;
  const send = (method, params = {}) => new Promise((done, fail) => {
    count += 1;
    waiting.set(count, { done, fail });
    wire.sendText(JSON.stringify({ id: count, method, params }));
  });
  await send("session.new", { capabilities: {} });
  return {
    send,
    end() {
      wire.close();
      child.kill("SIGKILL");
    },
  };
}

/** A WebSocket of this machine: texts out and in. */
async function socket(port, path) {
  const stream = connect(port, "127.0.0.1");
  const key = randomBytes(16).toString("base64");
  const wire = { onText() {}, sendText: (text) => stream.write(frame(Buffer.from(text))), close: () => stream.destroy() };
  let held = Buffer.alloc(0);
  let pieces = [];
  let isOpen = false;
  await new Promise((done, fail) => {
    stream.on("error", fail);
    stream.on("data", (part) => {
      held = Buffer.concat([held, part]);
      if (!isOpen) {
        const end = held.indexOf("\r\n\r\n");
        if (end < 0) return;
        const accept = createHash("sha1").update(`${key}258EAFA5-E914-47DA-95CA-C5AB0DC85B11`).digest("base64");
        if (!held.subarray(0, end).toString().includes(accept)) fail(new Error("no WebSocket"));
        held = held.subarray(end + 4);
        isOpen = true;
        done();
      }
      for (let read = unframed(held); read; read = unframed(held)) {
        held = held.subarray(read.length);
        if (read.code > 2) continue;
        pieces.push(read.content);
        if (!read.isLast) continue;
        const text = Buffer.concat(pieces).toString();
        pieces = [];
        wire.onText(text);
      }
    });
    stream.write(`GET ${path} HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nUpgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Key: ${key}\r\nSec-WebSocket-Version: 13\r\n\r\n`);
  });
  return wire;
}

function frame(content) {
  const mask = randomBytes(4);
  const head = content.length < 126 ? Buffer.from([0x81, 0x80 | content.length]) : Buffer.alloc(content.length < 65536 ? 4 : 10);
  if (content.length >= 126) {
    head[0] = 0x81;
    head[1] = 0x80 | (content.length < 65536 ? 126 : 127);
    if (content.length < 65536) head.writeUInt16BE(content.length, 2);
    else head.writeBigUInt64BE(BigInt(content.length), 2);
  }
  return Buffer.concat([head, mask, content.map((byte, at) => byte ^ mask[at % 4])]);
}

function unframed(bytes) {
  if (bytes.length < 2) return null;
  let length = bytes[1] & 0x7f;
  let start = 2;
  if (length === 126) {
    if (bytes.length < 4) return null;
    length = bytes.readUInt16BE(2);
    start = 4;
  } else if (length === 127) {
    if (bytes.length < 10) return null;
    length = Number(bytes.readBigUInt64BE(2));
    start = 10;
  }
  if (bytes.length < start + length) return null;
  return { length: start + length, code: bytes[0] & 0x0f, isLast: (bytes[0] & 0x80) !== 0, content: bytes.subarray(start, start + length) };
}
