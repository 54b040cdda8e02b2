import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { progressLine } from "@/lib/cli/pool/progress-line";

const MB = 1024 * 1024;

describe("the progress line", () => {
  beforeEach(() => {
    vi.useFakeTimers({ toFake: ["performance"] });
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it("tells how far the reading is now and then, and goes away", () => {
    const written: string[] = [];
    const line = progressLine((text) => written.push(text));
    line.update(MB, 4 * MB);
    expect(written).toEqual([]);
    vi.advanceTimersByTime(300);
    line.update(3 * MB, 4 * MB);
    line.update(4 * MB, 4 * MB);
    vi.advanceTimersByTime(300);
    line.update(5 * MB, 0);
    line.end();
    expect(written).toEqual(["\r\u001b[Kreading: 3 MB, 75 %", "\r\u001b[Kreading: 5 MB", "\r\u001b[K"]);
  });

  it("says at once what comes next", () => {
    const written: string[] = [];
    const line = progressLine((text) => written.push(text));
    line.say("pooling 3 boxes");
    line.end();
    expect(written).toEqual(["\r\u001b[Kpooling 3 boxes", "\r\u001b[K"]);
  });

  it("leaves no trace of a short reading, nor where there is no terminal", () => {
    const written: string[] = [];
    const line = progressLine((text) => written.push(text));
    line.update(MB, 4 * MB);
    line.end();
    expect(written).toEqual([]);
    const silent = progressLine(undefined);
    vi.advanceTimersByTime(300);
    silent.update(MB, MB);
    silent.say("pooling");
    silent.end();
  });
});
