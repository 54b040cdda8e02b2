import { database, type Transaction } from "@/lib/data/client";
import { findReleaseAnalysis, findReleaseRows, findReleaseTexts } from "@/lib/data/releases";
import { canonicalJson, sha256Hex } from "@/lib/engine/random/hash";
import { RELEASE_PARTS, type ReleaseManifest, type ReleasePart } from "@/shared/schemas/release";
import type { TrialView } from "./read-trials";

/** The manifest's own file name; its SHA-256 is the release's hash. */
export const MANIFEST = "release.json";
export type ReleaseFile = ReleasePart | typeof MANIFEST;

export interface PublicRelease {
  readonly hash: string;
  readonly manifest: ReleaseManifest;
  readonly methods: string;
}

/** A trial's release as anyone may read it; null while there is none. */
export async function readRelease(
  trial: Pick<TrialView, "id">,
  tx: Transaction = database(),
): Promise<PublicRelease | null> {
  const release = await findReleaseTexts(tx, trial.id);
  return release && { hash: release.hash, manifest: release.texts.manifest, methods: release.texts.methods };
}

/** One file of a release, byte for byte as its hash has it; null where there is no such file or release. */
export async function readReleaseFile(
  trial: Pick<TrialView, "id" | "plan">,
  name: string,
  tx: Transaction = database(),
): Promise<{ readonly text: string; readonly sha256: string } | null> {
  if (!isReleaseFile(name)) return null;
  const text = await textOf(trial, name, tx);
  return text === null ? null : { text, sha256: sha256Hex(text) };
}

async function textOf(
  { id, plan }: Pick<TrialView, "id" | "plan">,
  name: ReleaseFile,
  tx: Transaction,
): Promise<string | null> {
  if (name === "rows.csv") return findReleaseRows(tx, id);
  if (name === "results.json") {
    const analysis = await findReleaseAnalysis(tx, id);
    return analysis && canonicalJson(analysis);
  }
  const release = await findReleaseTexts(tx, id);
  if (!release) return null;
  const { manifest, methods, figures } = release.texts;
  if (name === "figures.json") return figures;
  if (name === "methods.txt") return methods;
  return canonicalJson(name === "plan.json" ? plan : manifest);
}

function isReleaseFile(name: string): name is ReleaseFile {
  return name === MANIFEST || RELEASE_PARTS.some((part) => part === name);
}
