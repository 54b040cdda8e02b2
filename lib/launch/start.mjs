// `npm start` (and `npm run dev`): nothing may be imported here that an old Node could not parse, so that
// the version check below gets to speak first.
import { nodeVersionProblem } from "./node-version.mjs";

const problem = nodeVersionProblem(process.versions.node);
if (problem) {
  console.error(problem);
  process.exit(1);
}
const { launch } = await import("./launch.mjs");
await launch({ development: process.argv.includes("--dev") });
