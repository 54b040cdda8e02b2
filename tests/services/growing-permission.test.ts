import { describe, expect, it } from "vitest";
import { permissionStanding } from "@/lib/services/growing/sites";

const today = "2027-06-01";

describe("permission to set boxes out", () => {
  it("counts for 180 days and is then asked for again", () => {
    const said = (on: string) => permissionStanding({ kind: "asked-and-given", on }, today);
    expect(said("2027-06-01")).toBe("said");
    expect(said("2026-12-03")).toBe("said"); // 180 days before
    expect(said("2026-12-02")).toBe("out-of-date");
  });

  it("is missing until it was said, and not there while it isn't settled", () => {
    expect(permissionStanding(null, today)).toBe("never-asked");
    expect(permissionStanding({ kind: "not-yet", on: today }, today)).toBe("not-yet");
    expect(permissionStanding({ kind: "own-land", on: today }, today)).toBe("said");
  });
});
