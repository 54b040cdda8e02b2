import { z } from "zod";
import { groupingFaults, KOPPEN_CLASSES } from "../vocabulary/climate";

const climateGroupSchema = z.strictObject({
  code: z
    .string({ error: "grouping.code.text" })
    .regex(/^[A-Za-z0-9][A-Za-z0-9-]{0,23}$/, { error: "grouping.code.form" }),
  classes: z.array(z.enum(KOPPEN_CLASSES, { error: "grouping.class.unknown" }), {
    error: "grouping.classes.list",
  }),
});

const FAULT_MESSAGES = {
  NO_GROUPS: "grouping.noGroups",
  GROUP_EMPTY: "grouping.group.empty",
  CODE_REPEATED: "grouping.code.repeated",
  CLASS_REPEATED: "grouping.class.repeated",
} as const;

/** A trial's climate grouping as typed in or stored. Every message is a key of the message catalogue. */
export const climateGroupingSchema = z
  .array(climateGroupSchema, { error: "grouping.list" })
  .superRefine((grouping, context) => {
    for (const fault of groupingFaults(grouping)) {
      context.addIssue({ code: "custom", message: FAULT_MESSAGES[fault.code], path: [...fault.at] });
    }
  });
