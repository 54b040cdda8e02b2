// The arrows of the code: app → services → data and engine → shared, never back. Each rule's comment is its remedy.

const product = "^(app|lib|shared)/|^(proxy|instrumentation(-client)?)\\.ts$";
/** The launcher's files that use an installed package; the rest must load before anything is installed. */
const launchWithPackages = "^lib/launch/(client|migrate|app-role|database)\\.mjs$";
const prismaClient = "^lib/data/generated/|(^|/)node_modules/@prisma/";

/** @type {import("dependency-cruiser").IConfiguration} */
export default {
  forbidden: [
    {
      name: "shared-is-the-bottom",
      comment:
        "shared/ runs in browser and server alike: it imports zod and itself. Move what needs more into lib/.",
      severity: "error",
      from: { path: "^shared/" },
      to: { pathNot: "^shared/|(^|/)node_modules/zod/" },
    },
    {
      name: "engine-is-pure",
      comment:
        "lib/engine imports shared/, itself, @stdlib, @noble and canonicalize. Pass anything else in as an argument, or do it in a service.",
      severity: "error",
      from: { path: "^lib/engine/" },
      to: { pathNot: "^(shared|lib/engine)/|(^|/)node_modules/(@stdlib|@noble|canonicalize)/" },
    },
    {
      name: "only-data-uses-prisma",
      comment: "Only lib/data imports the Prisma client. Add a read or a mutation there and call it.",
      severity: "error",
      from: { path: product, pathNot: "^lib/data/" },
      to: { path: prismaClient },
    },
    {
      name: "data-is-below-services",
      comment: "lib/data knows nothing of services, of the engine or of requests. Compose them in a service.",
      severity: "error",
      from: { path: "^lib/data/" },
      to: { path: "^(app|lib/(services|engine|http|ui|jobs|demo|cli|launch))/" },
    },
    {
      name: "services-are-below-requests",
      comment: "A service knows no route, page or process that calls it. Pass what it needs as an argument.",
      severity: "error",
      from: { path: "^lib/services/" },
      to: { path: "^(app|lib/(ui|demo|cli|launch))/" },
    },
    {
      name: "nothing-imports-app",
      comment: "app/ is the top. Move what is shared into lib/.",
      severity: "error",
      from: { path: "^(lib|shared)/" },
      to: { path: "^app/" },
    },
    {
      name: "app-goes-through-services",
      comment: "A page or action asks a service; the database and the engine are the service's business.",
      severity: "error",
      from: { path: "^app/" },
      to: { path: "^lib/data/" },
    },
    {
      name: "launch-before-install",
      comment:
        "The launcher starts before anything is installed: it imports Node's own modules and lib/launch. A file that needs a package is named in launchWithPackages and imported dynamically.",
      severity: "error",
      from: { path: "^lib/launch/.*\\.mjs$", pathNot: launchWithPackages },
      to: { dynamic: false, path: `node_modules/|${launchWithPackages}|^(app|shared|lib/(?!launch/))` },
    },
    {
      name: "no-tests-in-the-product",
      comment: "What the product needs does not live in tests/. Move it to lib/.",
      severity: "error",
      from: { path: product },
      to: { path: "^tests/" },
    },
    {
      name: "no-development-packages",
      comment:
        "The running product uses dependencies only. Move the package from devDependencies, or the import to a tool.",
      severity: "error",
      from: { path: product, pathNot: "^lib/launch/" },
      to: {
        dependencyTypes: ["npm-dev"],
        dependencyTypesNot: ["type-only"],
        pathNot: "node_modules/@types/",
      },
    },
    {
      name: "no-cycles",
      comment:
        "Files that need each other to run are one file, or need a third below both; types alone may go round.",
      severity: "error",
      from: { path: product },
      to: { circular: true, viaOnly: { dependencyTypesNot: ["type-only"] } },
    },
    {
      name: "everything-resolves",
      comment: "The import leads nowhere: correct its path, or install the package.",
      severity: "error",
      from: {},
      to: { couldNotResolve: true },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules|^lib/data/generated/" },
    exclude: { path: "^(dist|\\.next|\\.data)/" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    enhancedResolveOptions: {
      exportsFields: ["exports"],
      conditionNames: ["import", "require", "node", "default", "types"],
    },
  },
};
