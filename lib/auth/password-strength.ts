import { ZxcvbnFactory } from "@zxcvbn-ts/core";
import { adjacencyGraphs, dictionary } from "@zxcvbn-ts/language-common";

export const PASSWORD_LENGTH = { min: 15, max: 128 } as const;

/** Below this many tries a list of common passwords, keys in a row and repeats finds it. */
const COMMON_BELOW_TRIES = 1e8;

let estimator: ZxcvbnFactory | undefined;

/**
 * Whether a password may be used; length in characters, not bytes. There are no rules on composition
 * (NIST SP 800-63B, 3.1.1.2): long, and not one that is guessed first.
 *
 * @param ownWords what others know of its owner, such as their name and address
 */
export function passwordFault(
  password: string,
  ownWords: readonly string[] = [],
): "PASSWORD_TOO_SHORT" | "PASSWORD_TOO_LONG" | "PASSWORD_TOO_COMMON" | null {
  const length = [...password.normalize("NFC")].length;
  if (length < PASSWORD_LENGTH.min) return "PASSWORD_TOO_SHORT";
  if (length > PASSWORD_LENGTH.max) return "PASSWORD_TOO_LONG";
  estimator ??= new ZxcvbnFactory({ dictionary, graphs: adjacencyGraphs });
  const { guesses } = estimator.check(password, ["grainlot", ...ownWords]);
  return guesses < COMMON_BELOW_TRIES ? "PASSWORD_TOO_COMMON" : null;
}
