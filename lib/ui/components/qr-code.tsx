import QRCode from "qrcode";

/** Modules of white that a reader needs around a code (ISO/IEC 18004). */
const QUIET = 4;

/** An address as a QR code, black on white in either theme. */
export function QrCode({ address, label }: { address: string; label: string }) {
  const { size, data } = QRCode.create(address, { errorCorrectionLevel: "M" }).modules;
  const dark = [...data].flatMap((module, at) =>
    module ? [`M${(at % size) + QUIET} ${Math.floor(at / size) + QUIET}h1v1h-1z`] : [],
  );
  const side = size + 2 * QUIET;
  return (
    <svg
      role="img"
      aria-label={label}
      viewBox={`0 0 ${side} ${side}`}
      className="block w-full max-w-44"
      shapeRendering="crispEdges"
    >
      <rect width={side} height={side} fill="#fff" />
      <path d={dark.join("")} fill="#000" />
    </svg>
  );
}
