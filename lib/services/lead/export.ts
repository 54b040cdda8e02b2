import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { findLeadTrial } from "@/lib/data/lead";
import { exportedBoxes } from "@/lib/data/lead-export";
import { done, type Result, refuse } from "@/lib/errors/result";
import { csvLine } from "@/lib/services/csv";
import { authoriseLead } from "./authorise";

const COLUMNS = [
  ...[
    "grower",
    "outing",
    "position",
    "box",
    "band",
    "region",
    "given_up",
    "lost",
    "set_out_at",
    "fetched_at",
  ],
  ...[
    "opened_at",
    "cooked",
    "happened",
    "growth",
    "clean_take",
    "cover_percent",
    "usable_g",
    "total_g",
    "records",
  ],
];

/**
 * A trial's drawn boxes as CSV for its lead, one a line: what was done, what happened, what was recorded, under the
 * trial's made-up names. Recipes stand in it from the close on.
 */
export async function leadBoxes(
  tx: Transaction,
  actor: Actor,
  trialId: string,
): Promise<Result<{ readonly slug: string; readonly csv: string }, "NOT_FOUND" | "TRIAL_IS_DRAFT">> {
  const authorised = await authoriseLead(tx, actor, trialId);
  if (!authorised.ok) return authorised;
  const { status, slug, closedAt } = await findLeadTrial(tx, authorised.value);
  if (status === "draft") return refuse("TRIAL_IS_DRAFT");
  const boxes = await exportedBoxes(tx, authorised.value, closedAt);
  const isClosed = status === "closed";
  const lines = boxes.map((box) =>
    csvLine([
      ...[box.grower, box.outing, box.position, box.box, box.band, box.region],
      ...[
        Number(box.abandoned),
        Number(box.lost),
        ...[box.setOutAt, box.fetchedAt, box.openedAt].map(instant),
      ],
      ...[box.cooked, box.happened, box.growth, box.cleanTake === null ? null : Number(box.cleanTake)],
      ...[box.coverPercent, box.usableMassG, box.totalMassG, box.records],
      ...(isClosed ? [box.arm] : []),
    ]),
  );
  const head = csvLine([...COLUMNS, ...(isClosed ? ["arm"] : [])]);
  return done({ slug, csv: head + lines.join("") });
}

function instant(at: Date | null): string | null {
  return at?.toISOString() ?? null;
}
