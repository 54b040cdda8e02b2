/** Three boxes under trees, one grown over, one half, one bare; decoration beside words that say the same. */
export function WoodPicture() {
  return (
    <svg viewBox="0 0 360 150" className="mb-6 block w-full max-w-[32rem]" aria-hidden="true">
      <path d="M0 118q60-12 120-4t120-3 120 5v34H0Z" fill="var(--panel)" />
      <g fill="none" stroke="var(--edge)" strokeWidth="7" strokeLinecap="round">
        <path d="M34 116V40M92 112V22M278 112V30M332 115V48" />
        <path
          d="M34 62l-14-14M34 52l13-15M92 50l-17-17M92 40l18-19M278 58l-17-16M278 46l16-18M332 68l13-13"
          strokeWidth="4"
        />
      </g>
      <g fill="var(--line)">
        <path d="M-6 36q16-26 42-22 26-6 38 16-8 16-36 12-24 14-44-6Z" />
        <path d="M58 22Q76-8 104 0q30-4 36 20-16 16-42 8-28 10-40-6Z" />
        <path d="M240 30q14-28 44-24 28-4 38 18-14 18-40 10-28 12-42-4Z" />
        <path d="M306 44q12-18 30-18 26-2 32 16-16 14-32 10-20 6-30-8Z" />
      </g>
      <g stroke="var(--box-line)" strokeWidth="2.5" strokeLinejoin="round">
        <WoodBox x={96} growth="M103 108q8-6 18-3 14-3 24 1l-2 6h-38Z" />
        <WoodBox x={164} growth="M172 108q7-5 15-2l-3 6h-12Z" />
        <WoodBox x={232} growth={null} />
      </g>
      <path
        d="M12 130h26M60 138h22M176 140h30M262 136h34M318 130h24"
        stroke="var(--line)"
        strokeWidth="3"
        strokeLinecap="round"
      />
    </svg>
  );
}

/** A low box of grain at `x`, with its growth as a path or none. */
function WoodBox({ x, growth }: { x: number; growth: string | null }) {
  return (
    <g>
      <path d={`M${x} 112h56l-5 20h-46Z`} fill="#8d6536" />
      <path d={`M${x} 112q28-9 56 0Z`} fill="#c39a5e" />
      {growth ? <path d={growth} fill="#f4f7f5" strokeWidth="1.5" /> : null}
    </g>
  );
}
