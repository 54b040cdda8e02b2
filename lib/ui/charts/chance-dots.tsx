import { resultMessages } from "@/lib/ui/messages/en/results";

const words = resultMessages.chance;

export interface ChanceRow {
  readonly name: string;
  /** Of 20. */
  readonly dots: number;
}

const DOTS = 20;
const ACROSS = 10;
const WIDTH = 354;
const STEP = 34;

/** A chance as so many of twenty dots: the first recipe large, the others in a line of small ones each. */
export function ChanceDots({ rows, none }: { rows: readonly ChanceRow[]; none: readonly string[] }) {
  const [first, ...others] = rows;
  if (!first) return null;
  return (
    <figure className="mb-6 max-w-[27rem]">
      <figcaption className="mb-2 font-semibold">{words.title}</figcaption>
      <p className="mb-2">{words.says(first.name, first.dots)}</p>
      <LargeDots row={first} />
      {others.length > 0 ? (
        <ul className="mt-3 space-y-2">
          {others.map((row) => (
            <li key={row.name}>
              <span className="flex flex-wrap justify-between gap-x-4">
                <span>{row.name}</span>
                <span className="text-quiet">{words.row(row.dots)}</span>
              </span>
              <SmallDots dots={row.dots} />
            </li>
          ))}
        </ul>
      ) : null}
      {none.length > 0 ? <p className="mt-2 text-[0.9375rem] text-quiet">{words.rest(none)}</p> : null}
    </figure>
  );
}

function LargeDots({ row }: { row: ChanceRow }) {
  return (
    <svg
      viewBox={`0 0 ${WIDTH} 74`}
      className="block w-full"
      role="img"
      aria-label={`${row.name}: ${words.row(row.dots)}`}
    >
      <Dots
        dots={row.dots}
        radius={11}
        at={(place) => [14 + (place % ACROSS) * STEP, 18 + Math.floor(place / ACROSS) * 36]}
      />
    </svg>
  );
}

/** Its number stands beside it in words. */
function SmallDots({ dots }: { dots: number }) {
  return (
    <svg viewBox="0 0 354 14" className="block w-full" aria-hidden="true" focusable="false">
      <Dots dots={dots} radius={4.5} at={(place) => [7 + place * 17, 7]} />
    </svg>
  );
}

/** All filled dots in one path and all hollow ones in another: a page holds hundreds. */
function Dots({
  dots,
  radius,
  at,
}: {
  dots: number;
  radius: number;
  at: (place: number) => readonly [x: number, y: number];
}) {
  const all = Array.from({ length: DOTS }, (_, place) => circle(at(place), radius));
  const stroke = { stroke: "var(--act)", strokeWidth: radius > 8 ? 2.5 : 1.5 };
  return (
    <>
      <path d={all.slice(0, dots).join("")} fill="var(--act)" {...stroke} />
      <path d={all.slice(dots).join("")} fill="none" {...stroke} />
    </>
  );
}

function circle([x, y]: readonly [number, number], radius: number): string {
  return `M${x - radius} ${y}a${radius} ${radius} 0 1 0 ${2 * radius} 0a${radius} ${radius} 0 1 0 ${-2 * radius} 0`;
}
