import { readFileSync } from "node:fs";
import { extname, join } from "node:path";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { parseEnvironment } from "@/lib/env";
import { readSettings } from "@/lib/launch/settings.mjs";
import { root } from "../harness/root";

interface Service {
  readonly environment?: Readonly<Record<string, string>>;
  readonly ports?: readonly string[];
  readonly restart?: string;
  readonly healthcheck?: { readonly test: readonly string[] };
  readonly build?: { readonly dockerfile_inline: string };
}

const text = readFileSync(join(root, "docker-compose.yml"), "utf8");
const { services } = parse(text) as { readonly services: Readonly<Record<string, Service>> };
const SECRETS = ["POSTGRES_PASSWORD", "NEXTAUTH_SECRET", "GRAINLOT_SEAL_KEY"] as const;

/** As the Compose specification interpolates: a default after `:-`, a refusal after `:?`. */
function interpolate(value: string, given: Readonly<Record<string, string>>): string {
  return value.replaceAll(/\$\{(\w+)(:[-?])([^}]*)\}/g, (_, name: string, kind: string, rest: string) => {
    const set = given[name];
    if (set) return set;
    if (kind === ":?") throw new Error(`${name} ${rest}`);
    return rest;
  });
}

function environmentOf(service: string, given: Readonly<Record<string, string>>) {
  const entries = Object.entries(services[service]!.environment ?? {});
  return Object.fromEntries(entries.map(([name, value]) => [name, interpolate(value, given)]));
}

const GIVEN = {
  POSTGRES_PASSWORD: "0f".repeat(32),
  NEXTAUTH_SECRET: "0123456789abcdefghijklmnopqrstuvwxyz",
  GRAINLOT_SEAL_KEY: "4f".repeat(32),
  NEXTAUTH_URL: "https://grain.example.org",
};

describe("docker-compose.yml", () => {
  it("has a database, the app and a mail catcher, which come up again and are reached from this machine only", () => {
    expect(Object.keys(services)).toEqual(["database", "app", "mailcatcher"]);
    for (const { restart, ports } of Object.values(services)) {
      expect(restart).toBe("unless-stopped");
      for (const port of ports ?? []) expect(port).toMatch(/^127\.0\.0\.1:/);
    }
    expect(services.database!.healthcheck).toBeDefined();
    expect(services.app!.healthcheck!.test.join(" ")).toContain("/api/health");
  });

  it("runs the app as somebody other than root", () => {
    const lines = services.app!.build!.dockerfile_inline.trim().split("\n");
    expect(lines.filter((line) => line.startsWith("USER"))).toEqual(["USER node"]);
    expect(lines.indexOf("USER node")).toBeLessThan(lines.findIndex((line) => line.startsWith("COPY")));
  });

  it("gives the app what it asks for in earnest", () => {
    const environment = environmentOf("app", GIVEN);
    expect(readSettings(environment)).toMatchObject({ mode: "production", host: "0.0.0.0", port: 3000 });
    expect(parseEnvironment({ ...environment, GRAINLOT_MODE: "production" })).toMatchObject({
      NEXTAUTH_URL: GIVEN.NEXTAUTH_URL,
      GRAINLOT_DATA_DIR: "/data",
    });
  });

  it.each([...SECRETS, "NEXTAUTH_URL"])("refuses to start without %s", (name) => {
    const { [name as keyof typeof GIVEN]: _, ...rest } = GIVEN;
    expect(() => environmentOf("app", rest)).toThrow(name);
  });

  it.each([
    ["NEXTAUTH_SECRET", "short"],
    ["NEXTAUTH_SECRET", "a".repeat(64)],
    ["GRAINLOT_SEAL_KEY", "not hexadecimal"],
  ])("leaves a weak %s to the app, which refuses it", (name, weak) => {
    const environment = environmentOf("app", { ...GIVEN, [name]: weak });
    expect(() => parseEnvironment({ ...environment, GRAINLOT_MODE: "production" })).toThrow(name);
  });

  it("builds an image and commits nothing of the backups that README.md has made beside it", () => {
    const commands = readFileSync(join(root, "README.md"), "utf8").match(/^ {4}docker compose .*$/gm)!;
    const backups = commands.flatMap((command) => / > (\S+)$/.exec(command)?.[1] ?? []);
    expect(backups).toHaveLength(2);
    for (const file of [".dockerignore", ".gitignore"]) {
      const ignored = readFileSync(join(root, file), "utf8").split("\n");
      for (const backup of backups) expect(ignored).toContain(`*${extname(backup)}`);
    }
  });

  it("holds no secret itself", () => {
    for (const name of SECRETS) {
      for (const line of text.split("\n").filter((each) => each.includes(`${name}:`))) {
        expect(line).toContain(`\${${name}:?`);
      }
    }
  });
});
