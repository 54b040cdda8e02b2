import type { VariantContent } from "@/shared/schemas/protocol-variant";
import { canonicalJson, sha256Hex } from "../random/hash";

/** Stands in the hashed text. Raise it when what counts as content changes: every identity changes with it. */
const IDENTITY_VERSION = 1;

/**
 * The content as it is stored and compared: ratio to 0.01, soaking to 0.1 h, cooking to whole minutes, halves up.
 * Finer differences are below what a kitchen can repeat (common practice, no source). Normalising twice changes nothing.
 * Throws RangeError on a number that is not finite.
 */
export function normaliseVariant(content: VariantContent): VariantContent {
  const { grain, form, rinsed, soakHours, waterToGrain, ratioBasis, cookMethod, cookMinutes, cooling } =
    content;
  return {
    grain,
    form,
    rinsed,
    soakHours: roundToFraction(soakHours, 10),
    waterToGrain: roundToFraction(waterToGrain, 100),
    ratioBasis,
    cookMethod,
    cookMinutes: roundToFraction(cookMinutes, 1),
    cooling,
  };
}

/** Canonical JSON (RFC 8785) of the normalised content and the identity version: equal text, same recipe. */
export function canonicalVariant(content: VariantContent): string {
  return canonicalJson({ identityVersion: IDENTITY_VERSION, content: normaliseVariant(content) });
}

/** Identity of a protocol variant: SHA-256 of its canonical text, as 64 lower-case hex digits. */
export function variantHash(content: VariantContent): string {
  return sha256Hex(canonicalVariant(content));
}

/** The value to the nearest 1/parts. Adding 0 turns −0 into 0. */
function roundToFraction(value: number, parts: number): number {
  if (!Number.isFinite(value)) {
    throw new RangeError(
      `A recipe cannot hold the number ${value}; parse it with the recipe's schema first.`,
    );
  }
  return Math.round(value * parts) / parts + 0;
}
