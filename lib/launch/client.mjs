import pg from "pg";
import { explainConnectionError } from "./database-url.mjs";

/**
 * @template T
 * @param {string} connectionString
 * @param {(client: import("pg").Client) => Promise<T>} use
 * @param {string} [variable] where the reader can change the connection
 * @returns {Promise<T>}
 * @throws {import("./problem.mjs").Problem} when it cannot connect; what `use` throws passes through
 */
export async function withClient(connectionString, use, variable) {
  const client = new pg.Client({
    connectionString,
    connectionTimeoutMillis: 15_000,
    application_name: "grainlot launcher",
  });
  client.on("error", () => {}); // the query that meets a lost connection says so
  try {
    await client.connect().catch((error) => {
      throw explainConnectionError(error, connectionString, variable);
    });
    return await use(client);
  } finally {
    await client.end().catch(() => {});
  }
}
