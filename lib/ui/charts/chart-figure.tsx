import type { ReactNode } from "react";

interface Props {
  readonly title: string;
  /** The picture in words, for those who don't see it. */
  readonly says: string;
  /** Of the drawing, in its own units; on the page it is as wide as its place. */
  readonly width: number;
  readonly height: number;
  readonly fontSize: number;
  readonly children: ReactNode;
  /** Legend or notes under the drawing. */
  readonly below?: ReactNode;
}

/**
 * The frame of every picture of results: its title above, and for screen readers the title and what it shows. At its
 * widest, its type is as large as the text around it.
 */
export function ChartFigure(props: Props) {
  const { title, says, width, height, fontSize, children, below } = props;
  return (
    <figure className="mb-6 max-w-[27rem]">
      <figcaption className="mb-2 font-semibold">{title}</figcaption>
      <svg
        viewBox={`0 0 ${width} ${height}`}
        className="block w-full"
        role="img"
        aria-label={`${title}. ${says}`}
        fontSize={fontSize}
        fill="currentColor"
      >
        {children}
      </svg>
      {below}
    </figure>
  );
}
