// `npm test`, and `npm run check` with --quick: everything that can be wrong, in order, from a fresh clone with
// nothing installed. The last line reads "N passed, N failed": every test counts, and every other step as one.
import { nodeVersionProblem } from "./node-version.mjs";

const problem = nodeVersionProblem(process.versions.node);
if (problem) {
  console.error(problem);
  process.exit(1);
}
const { test } = await import("./test-steps.mjs");
await test({ quick: process.argv.includes("--quick") });
