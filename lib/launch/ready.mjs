// What `npm start` does before it needs a database, for an image: packages, what the sources need made, the pages.
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { ensureBuilt } from "./build.mjs";
import { ensureInstalled } from "./install.mjs";
import { prepare } from "./prepare.mjs";
import { hashSources } from "./sources.mjs";

const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
await ensureInstalled(root, console.log);
const sourceHash = hashSources(root);
await prepare(root, sourceHash);
await ensureBuilt(root, sourceHash, process.env, console.log);
