/** The releases Grainlot runs on: the least minor version of each supported line, and every line after the last. */
const leastMinor = { 20: 19, 22: 12 };
const openEndedFrom = 24;

/**
 * @param {string} version such as "20.19.0"
 * @returns {string | null} one line saying what is wrong and what to do, or null when the version fits
 */
export function nodeVersionProblem(version) {
  const parts = version.split(".");
  const major = Number(parts[0]);
  const minor = Number(parts[1]);
  const least = leastMinor[/** @type {keyof typeof leastMinor} */ (major)];
  if (major >= openEndedFrom || (least !== undefined && minor >= least)) return null;
  return (
    "Grainlot needs Node 20.19 or later of the 20 line, 22.12 or later of the 22 line, or 24 and above; this is " +
    version +
    ". Install a supported Node (see nodejs.org) and run the command again."
  );
}
