import type { RecipeComparison } from "@/lib/services/growing/own-comparison";

const WIDTH = 320;
const EDGE = 12;
const MIDDLE = 16;

/** Growth 0–4 on a line, what lies outside at its end. */
const along = (growth: number) => EDGE + (Math.min(4, Math.max(0, growth)) / 4) * (WIDTH - 2 * EDGE);

/** Own boxes as hollow squares, beside one another where they are alike, over everyone's mean and interval. */
export function OwnGrowthLine({ recipe: { own, everyone } }: { recipe: RecipeComparison }) {
  const takes = own.flatMap(({ take }) => (take === null ? [] : [take]));
  return (
    <svg viewBox={`0 0 ${WIDTH} 44`} className="my-1 block w-full max-w-[24rem]" aria-hidden="true">
      {[0, 1, 2, 3, 4].map((growth) => (
        <g key={growth}>
          <path d={`M${along(growth)} 4V28`} stroke="var(--line)" />
          <text x={along(growth)} y="42" textAnchor="middle" fill="var(--quiet)" fontSize="12">
            {growth}
          </text>
        </g>
      ))}
      {everyone?.lower != null && everyone.upper != null ? (
        <path
          d={`M${along(everyone.lower)} ${MIDDLE}H${along(everyone.upper)}`}
          stroke="var(--act)"
          strokeWidth="3"
        />
      ) : null}
      {everyone ? <circle cx={along(everyone.mean)} cy={MIDDLE} r="6" fill="var(--act)" /> : null}
      {takes.map((take, i) => {
        const before = takes.slice(0, i).filter((other) => other === take).length;
        return (
          <rect
            // biome-ignore lint/suspicious/noArrayIndexKey: drawn once, in order
            key={i}
            x={along(take) - 6 + before * (take === 4 ? -5 : 5)}
            y={MIDDLE - 6}
            width="12"
            height="12"
            fill="none"
            stroke="var(--due)"
            strokeWidth="2.5"
          />
        );
      })}
    </svg>
  );
}
