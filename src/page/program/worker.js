// The program works here, away from the page: however long a run takes, the
// page answers, and a run that never ends is ended by ending this worker.
import { run } from "./run.js";

let program;

self.onmessage = async ({ data }) => {
  if (data.program) {
    program = data.program;
    return;
  }
  const { id, args, files } = data;
  try {
    const result = await run(program, args, files);
    const buffers = new Set(Object.values(result.files).map((bytes) => bytes.buffer));
    self.postMessage({ id, result }, [...buffers]);
  } catch (error) {
    self.postMessage({ id, error: String(error?.message ?? error) });
  }
};
