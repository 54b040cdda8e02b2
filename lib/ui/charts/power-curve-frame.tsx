"use client";

import dynamic from "next/dynamic";
import { percent } from "@/lib/ui/format";
import { designMessages } from "@/lib/ui/messages/en/design";
import { type CurveLine, HEIGHT_CLASS, LINE_LOOKS } from "./power-curve-lines";

const words = designMessages.curve;

const Drawing = dynamic(() => import("./power-curve"), {
  ssr: false,
  loading: () => <p className="text-quiet">{words.waiting}</p>,
});

interface Props {
  readonly title: string;
  readonly lines: readonly CurveLine[];
  readonly planned: number;
}

/** Chance against growers, with its legend; the drawing is fetched when a page shows one. */
export function PowerCurve({ title, lines, planned }: Props) {
  return (
    <figure className="mb-4 max-w-[44rem]">
      <figcaption className="mb-2 font-semibold">{title}</figcaption>
      <div role="img" aria-label={sayCurve(lines)} className={HEIGHT_CLASS}>
        <Drawing lines={lines} planned={planned} />
      </div>
      <ul className="mt-1 flex flex-wrap gap-x-5 gap-y-1 text-[0.9375rem]">
        {lines.map(({ line }) => (
          <li key={line} className="flex items-center gap-2">
            <svg viewBox="0 0 36 6" className="w-9" aria-hidden="true" focusable="false">
              <path d="M0 3H36" fill="none" {...LINE_LOOKS[line]} />
            </svg>
            {words.lines[line]}
          </li>
        ))}
      </ul>
    </figure>
  );
}

/** Where each line starts and ends, in words. */
function sayCurve(lines: readonly CurveLine[]): string {
  const parts = lines.flatMap(({ line, points }) => {
    const ends = [points[0], points.at(-1)].flatMap((point) =>
      point ? [words.point(point.growers, percent(point.chance))] : [],
    );
    return ends.length > 0 ? [`${words.lines[line]}: ${ends.join(", ")}`] : [];
  });
  return words.says(parts.join("; "));
}
