/**
 * The environment of the web server: the owner's connection stays with the launcher.
 * @param {Readonly<Record<string, string | undefined>>} env
 * @param {import("./settings.mjs").Settings} settings
 * @param {string} appUrl
 * @param {{ sessionSecret: string, sealKey: string } | null} secrets demo mode's own; in production they come from `env`
 * @returns {NodeJS.ProcessEnv}
 */
export function serverEnv(env, settings, appUrl, secrets) {
  const { PGPASSWORD, PGUSER, PGDATABASE, PGHOST, PGPORT, GRAINLOT_APP_DATABASE_URL, ...rest } = env;
  return {
    ...rest,
    DATABASE_URL: appUrl,
    GRAINLOT_MODE: settings.mode,
    HOST: settings.host,
    PORT: String(settings.port),
    NEXTAUTH_URL: env.NEXTAUTH_URL || settings.origin,
    ...(secrets && {
      NEXTAUTH_SECRET: env.NEXTAUTH_SECRET || secrets.sessionSecret,
      GRAINLOT_SEAL_KEY: env.GRAINLOT_SEAL_KEY || secrets.sealKey,
    }),
  };
}
