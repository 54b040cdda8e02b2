/** A fault that its reader can mend: `message` is one line that says what is wrong and what to do. */
export class Problem extends Error {
  /** @override */
  name = "Problem";
}

/** PostgreSQL's error code disk_full. */
const pgDiskFull = "53100";

/**
 * @param {unknown} evidence an error, or what a program printed before it gave up
 * @returns {boolean} whether it ran out of room on the disk
 */
export function isDiskFull(evidence) {
  const code = /** @type {{ code?: string } | null} */ (evidence)?.code;
  return (
    code === "ENOSPC" ||
    code === "EDQUOT" ||
    code === pgDiskFull ||
    /ENOSPC|No space left on device/.test(String(evidence))
  );
}

/**
 * @param {string} doing what was being done, such as "building the pages"
 * @returns {Problem}
 */
export function diskFull(doing) {
  return new Problem(
    `The disk filled up while ${doing}. Free some space (Grainlot needs about 2 GB in its folder) and start again; nothing that was saved is lost.`,
  );
}

/**
 * Turns the ordinary faults of a file system into one line; anything else is handed back unchanged.
 * @param {unknown} error
 * @param {string} doing
 * @returns {unknown}
 */
export function explainFileError(error, doing) {
  if (error instanceof Problem) return error;
  if (isDiskFull(error)) return diskFull(doing);
  const { code, path } = /** @type {NodeJS.ErrnoException} */ (error ?? {});
  if (code === "EACCES" || code === "EPERM" || code === "EROFS") {
    return new Problem(
      `No permission for ${path ?? "a file"} while ${doing}. Start Grainlot as the user who owns its folder, in a place that can be written to.`,
    );
  }
  return error;
}

/**
 * @param {string} output
 * @param {number} lines
 * @returns {string} its last lines, without blank ones
 */
export function tail(output, lines) {
  return output
    .split("\n")
    .filter((line) => line.trim() !== "")
    .slice(-lines)
    .join("\n");
}
