import PDFDocument from "pdfkit";
import QRCode from "qrcode";
import { recruitMessages } from "@/lib/ui/messages/en/recruit";
import { linesOf, type Weight } from "./lettering";

const words = recruitMessages.poster;

export interface PosterText {
  readonly title: string;
  readonly question: string;
  readonly invented: boolean;
  readonly regions: readonly string[];
  /** Boxes in one set, in words. */
  readonly boxes: string;
  /** The last day, in words. */
  readonly until: string;
  readonly joinCode: string;
  /** The whole address that joins. */
  readonly link: string;
}

/** ISO 216 A4 in points, and what is left white around it. */
const PAGE = { width: 595.28, height: 841.89 };
const MARGIN = 56;
const WIDTH = PAGE.width - 2 * MARGIN;
const QR_SIZE = 170;
/** Where the invitation with the QR code begins: text above shrinks until it ends before. */
const FOOT = PAGE.height - MARGIN - QR_SIZE - 24;
const INK = "#1d2a20";
const QUIET = "#4b574e";

/** One A4 page that invites to a trial, as PDF. */
export function posterPdf(text: PosterText): Promise<Buffer> {
  const document = new PDFDocument({
    size: "A4",
    margin: 0,
    font: linesOf("A", "regular", 1, 1)[0]!.runs[0]!.path,
    info: { Title: text.title, Author: "Grainlot" },
    lang: "en-GB",
  });
  const chunks: Buffer[] = [];
  const finished = new Promise<Buffer>((resolve, reject) => {
    document.on("data", (chunk: Buffer) => chunks.push(chunk));
    document.on("end", () => resolve(Buffer.concat(chunks)));
    document.on("error", reject);
  });
  const scale = [1, 0.85, 0.7, 0.55].find((each) => upperPart(text, each).height <= FOOT - MARGIN) ?? 0.45;
  draw(document, upperPart(text, scale), MARGIN, MARGIN);
  drawFoot(document, text);
  document.end();
  return finished;
}

/** A piece of text at its place below the one before. */
interface Block {
  readonly text: string;
  readonly weight: Weight;
  readonly size: number;
  readonly color: string;
  /** White space above, in points. */
  readonly above: number;
}

const block = (text: string, size: number, look: Partial<Block> = {}): Block => ({
  ...{ text, size, weight: "regular", color: INK, above: size * 0.6 },
  ...look,
});

interface Placed {
  readonly height: number;
  readonly blocks: readonly Block[];
  readonly width: number;
}

const LEADING = 1.28;

function placed(blocks: readonly Block[], width: number): Placed {
  const height = blocks.reduce((sum, { text, weight, size, above }) => {
    return sum + above + linesOf(text, weight, size, width).length * size * LEADING;
  }, 0);
  return { blocks, height, width };
}

function upperPart(text: PosterText, scale: number): Placed {
  const sized = (words: string, size: number, look?: Partial<Block>) => block(words, size * scale, look);
  return placed(
    [
      ...(text.invented ? [sized(words.invented, 12, { color: QUIET })] : []),
      sized(words.kicker, 15, { weight: "bold", color: QUIET }),
      sized(text.title, 38, { weight: "bold", above: 4 }),
      sized(text.question, 22),
      sized(words.where(text.regions, text.until), 16, { above: 20 * scale }),
      sized(words.asksTitle, 18, { weight: "bold", above: 24 * scale }),
      ...words.asks(text.boxes).map((item) => sized(`–  ${item}`, 15, { above: 4 })),
      sized(words.caution, 13, { weight: "bold", above: 24 * scale }),
    ],
    WIDTH,
  );
}

function draw(document: PDFKit.PDFDocument, { blocks, width }: Placed, x: number, top: number): void {
  let y = top;
  for (const { text, weight, size, color, above } of blocks) {
    y += above;
    for (const line of linesOf(text, weight, size, width)) {
      let at = x;
      for (const run of line.runs) {
        document.font(run.path).fontSize(size).fillColor(color).text(run.text, at, y, { lineBreak: false });
        at += run.width;
      }
      y += size * LEADING;
    }
  }
}

/** The QR code, and beside it what to do with it. */
function drawFoot(document: PDFKit.PDFDocument, { link, joinCode }: PosterText): void {
  const top = PAGE.height - MARGIN - QR_SIZE;
  document.rect(MARGIN, top - 18, WIDTH, 2).fill(INK);
  const { modules } = QRCode.create(link, { errorCorrectionLevel: "M" });
  const side = QR_SIZE / modules.size;
  for (let row = 0; row < modules.size; row++) {
    for (let column = 0; column < modules.size; column++) {
      if (modules.get(row, column)) document.rect(MARGIN + column * side, top + row * side, side, side);
    }
  }
  document.fill("black");
  const beside = WIDTH - QR_SIZE - 24;
  const invitation = placed(
    [
      block(words.join, 20, { weight: "bold", above: 0 }),
      block(link, 14),
      block(words.code(joinCode), 14),
      block(words.foot, 11, { color: QUIET, above: 14 }),
    ],
    beside,
  );
  draw(document, invitation, MARGIN + QR_SIZE + 24, top);
}
