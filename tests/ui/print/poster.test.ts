import { describe, expect, it } from "vitest";
import { linesOf } from "@/lib/ui/print/lettering";
import { type PosterText, posterPdf } from "@/lib/ui/print/poster";

const TEXT: PosterText = {
  title: "Rice or barley, and how wet?",
  question: "Which grain, cooked how wet, is grown over best?",
  invented: true,
  regions: ["North shore", "Galicia"],
  boxes: "3 to 6",
  until: "30 June 2027",
  joinCode: "AB12CD34",
  link: "https://grainlot.example/join/AB12CD34",
};

/** A4, one page, both font files at most once each: read off the file's own objects (ISO 32000-1, 7.7.3). */
function pagesOf(pdf: Buffer): number {
  return pdf.toString("latin1").match(/\/Type \/Page\b/g)?.length ?? 0;
}

describe("the poster", () => {
  it("is one A4 page of PDF", async () => {
    const pdf = await posterPdf(TEXT);
    expect(pdf.subarray(0, 5).toString()).toBe("%PDF-");
    expect(pagesOf(pdf)).toBe(1);
    expect(pdf.toString("latin1")).toContain("/MediaBox [0 0 595.28 841.89]");
  });

  it.each([
    ["emoji and a flag", "🍄 Rice 🇪🇸 or barley?"],
    ["Hebrew and an override of direction", "אורז \u202e rice"],
    ["nothing the typeface has", "🍄🍄🍄"],
    ["one word wider than the page", "x".repeat(80)],
    ["markup", "<b>'; DROP TABLE trial; --</b>"],
    ["letters of further Latin scripts", "Żyto czy ryż? Çavdar, ő, ț"],
  ])("stays one page with %s", async (_, title) => {
    const question = title.repeat(4).slice(0, 300);
    expect(pagesOf(await posterPdf({ ...TEXT, title, question, regions: Array(12).fill(title) }))).toBe(1);
  });
});

describe("lines of a text", () => {
  const said = (text: string, width = 400) =>
    linesOf(text, "regular", 12, width).map(({ runs }) => runs.map((run) => run.text).join(""));

  it("leave out what the typeface lacks and keep the rest", () => {
    expect(said("🍄 Rice שלום ryż")).toEqual(["Rice ryż"]);
    expect(said("🍄")).toEqual([]);
  });

  it("are no wider than asked, however long a word is", () => {
    const lines = linesOf(`one ${"y".repeat(120)} two`, "bold", 20, 200);
    expect(lines.length).toBeGreaterThan(3);
    expect(Math.max(...lines.map(({ width }) => width))).toBeLessThanOrEqual(200);
    expect(lines.map(({ runs }) => runs.map((run) => run.text).join("")).join("")).toContain("two");
  });
});
