/** Where links within a results page lead. */
export const places = {
  group: (code: string) => `group-${code}`,
  everywhere: "everywhere",
  seasons: "seasons",
  warmth: "warmth",
  factors: "factors",
  moisture: "moisture",
  usable: "usable",
  sensitivity: "sensitivity",
  losses: "losses",
  regions: "regions",
  agreement: "agreement",
  growers: "growers",
  source: "source",
} as const;
