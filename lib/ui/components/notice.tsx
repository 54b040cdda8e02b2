import type { ReactNode } from "react";

const LOOK = {
  ok: "border-ok text-ok bg-ground",
  due: "border-due text-due bg-due-ground",
  info: "border-line text-ink bg-panel",
} as const;

/** What just happened, what is due, or what to know. `due` is read out at once, the others when there is time. */
export function Notice({ kind, children }: { kind: keyof typeof LOOK; children: ReactNode }) {
  return (
    <div
      role={kind === "due" ? "alert" : "status"}
      className={`mb-5 max-w-[44em] rounded-[5px] border-2 px-3.5 py-2.5 font-semibold ${LOOK[kind]}`}
    >
      {children}
    </div>
  );
}
