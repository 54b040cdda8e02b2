/** Words of the page that says whether the server does its work. */
export const healthMessages = {
  title: "Is everything running?",
  ready: "Yes. The database answers and everything is in place.",
  notReady: "No. Whoever runs this server needs to look into it; what you had saved is safe.",
  database: "Database",
  answers: "answers",
  noAnswer: "does not answer",
  migration: "Database version",
  notMigrated: "not set up yet",
  unfinished: (name: string, count: number) => `${name}, and ${count} unfinished`,
  version: "Grainlot version",
  counts: "Trials, boxes, records",
  countsOf: (trials: number, boxes: number, grades: number) =>
    `${trials} trials, ${boxes} boxes, ${grades} records`,
  pooling: "Everyone's results",
  upToDate: "up to date",
  waiting: (trials: number, seconds: number) =>
    `${trials} waiting to be worked out, the first for ${Math.round(seconds)} s`,
} as const;
