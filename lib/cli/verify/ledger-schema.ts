import { z } from "zod";
import { ledgerFileSchema } from "@/shared/schemas/ledger-file";

const DESCRIPTION = [
  "What no schema can say. JSON below is RFC 8785 (canonical) JSON, hashes are SHA-256 in lower-case hex.",
  "seal: SHA-256 of the secret's 32 bytes. planHash: SHA-256 of the plan's JSON.",
  "The chain starts at SHA-256 of the JSON of {planHash, seal, trialId}, the previousHash of draw 1.",
  "An entry's hash: SHA-256 of the JSON of all its other members; the next entry's previousHash is this hash.",
  "drawnBefore: boxes drawn for the arm in the climate group by the earlier entries that have no inputs.returns.",
  "Random numbers of draw n: the ChaCha20 key stream (RFC 8439, nonce of 12 zero bytes, counter from 0) under the",
  "key HMAC-SHA-256(secret, UTF-8 of '<trial id>/<n>'), read as little-endian 32-bit words.",
].join(" ");

/** The ledger's form as a JSON Schema (draft 2020-12), for programs that don't share our code. */
export function ledgerJsonSchema(): object {
  const { $schema, ...schema } = z.toJSONSchema(ledgerFileSchema, {
    io: "input",
    override({ jsonSchema }) {
      delete jsonSchema.readOnly;
      // No format that JSON Schema names; the pattern beside it says the same.
      if (jsonSchema.format === "lowercase") delete jsonSchema.format;
    },
  });
  return { $schema, title: "Grainlot ledger, form 1", description: DESCRIPTION, ...schema };
}
