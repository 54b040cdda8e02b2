import { closeSync, openSync, writeSync } from "node:fs";
import { seededSource } from "@/lib/engine/random/source";
import { normalsFrom } from "@/tests/engine/statistics/simulated-trial";

const ARMS = 12;
const BANDS = ["Cfa", "Cfb", "Csa", "Csb", "Dfb"];
const CUTS = [-1, -0.3, 0.4, 1.1];
const LOST = 0.08;
const FLUSH_CHARACTERS = 1 << 20;

/**
 * Writes an invented trial of so many boxes as the command reads it: 12 arms in 5 bands, 1–7 outings a grower of 2–6
 * boxes with arms at random, growth 0–4 cut from a latent normal (standard deviations: outing .5, grower .5, grower ×
 * arm .4, box 1; arms and bands differ), 8 % lost.
 */
export function writeBenchTable(path: string, boxes: number): void {
  const source = seededSource(`benchmark ${boxes}`);
  const normal = normalsFrom(source);
  const file = openSync(path, "w");
  let text = "grower,outing,band,arm,outcome,status\n";
  let [written, outing] = [0, 0];
  for (let grower = 0; written < boxes; grower++) {
    const band = source.below(BANDS.length);
    const level = 0.5 * normal() + 0.15 * (band - 2);
    const liking = Array.from({ length: ARMS }, (_, arm) => 0.4 * normal() + 0.08 * (arm - 6));
    for (let left = 1 + source.below(7); left > 0 && written < boxes; left--, outing++) {
      const place = level + 0.5 * normal();
      for (let box = 2 + source.below(5); box > 0 && written < boxes; box--, written++) {
        const arm = source.below(ARMS);
        const latent = place + liking[arm]! + normal();
        const growth = CUTS.filter((cut) => latent > cut).length;
        const outcome = source.unit() < LOST ? ",lost" : `${growth},graded`;
        text += `g${grower},o${outing},${BANDS[band]},arm${arm},${outcome}\n`;
      }
    }
    if (text.length > FLUSH_CHARACTERS) {
      writeSync(file, text);
      text = "";
    }
  }
  writeSync(file, text);
  closeSync(file);
}
