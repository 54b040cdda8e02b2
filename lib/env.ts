import { z } from "zod";

/** Secrets too short or too plain to keep anything safe. */
const secret = z
  .string()
  .min(32, "must have at least 32 characters (openssl rand -hex 32 makes one)")
  .refine((value) => new Set(value).size >= 10, "must be random (openssl rand -hex 32 makes one)");

const schema = z
  .object({
    DATABASE_URL: z.string().regex(/^postgres(ql)?:\/\//, "must start with postgresql://"),
    GRAINLOT_MODE: z.enum(["demo", "production"]).default("production"),
    NEXTAUTH_SECRET: secret,
    NEXTAUTH_URL: z.url(),
    GRAINLOT_SEAL_KEY: z
      .string()
      .regex(/^[0-9a-f]{64}$/, "must be 32 bytes as 64 hex digits (openssl rand -hex 32 makes one)"),
    GRAINLOT_DATA_DIR: z.string().default(".data"),
    SMTP_URL: z
      .string()
      .regex(/^smtps?:\/\//, "must start with smtp:// or smtps://")
      .optional(),
    MAIL_FROM: z.string().default("Grainlot <grainlot@localhost>"),
    /** The demo's sign-ins, written when the demo is loaded: [{ role, email, password }]. */
    DEMO_SIGN_INS_FILE: z.string().optional(),
    LOG_LEVEL: z.enum(["debug", "info", "warn", "error", "silent"]).default("info"),
  })
  .refine((env) => env.GRAINLOT_MODE === "demo" || env.SMTP_URL, {
    path: ["SMTP_URL"],
    message: "is needed outside the demo: passwords are reset by mail",
  });

export type Environment = z.infer<typeof schema>;

/** Reads the environment; throws one error that names every variable at fault and what to do. */
export function parseEnvironment(variables: Record<string, string | undefined>): Environment {
  const parsed = schema.safeParse(variables);
  if (parsed.success) return parsed.data;
  const faults = parsed.error.issues.map(({ path, code, message }) => {
    const name = path.join(".");
    const missing = code === "invalid_type" && variables[name] === undefined;
    return `${name} ${missing ? "is missing" : message}`;
  });
  throw new Error(`The environment isn't complete: ${faults.join("; ")}.`);
}

let environment: Environment | undefined;

/** The server's environment, parsed once at the first use (instrumentation.ts makes that the start). */
export function env(): Environment {
  environment ??= parseEnvironment(process.env);
  return environment;
}
