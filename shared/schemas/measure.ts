import { z } from "zod";
import { UNMEASURED } from "@/shared/vocabulary/growth";

/**
 * A value, a stated reason for none, or `null` where nobody answered. No preset, and never a reason not to save.
 * @param error message key for what is none of these
 */
export function measureSchema<T extends z.ZodType>(value: T, error: string) {
  return z.union([z.strictObject({ value }, { error }), z.enum(UNMEASURED, { error })], { error }).nullable();
}
