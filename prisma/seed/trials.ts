import type { ClimateGrouping } from "@/shared/vocabulary/climate";

/** Climate groups of the demo's trials. Places in other classes can't take part. */
export const DEMO_GROUPING: ClimateGrouping = [
  { code: "mild-wet", classes: ["Cfa", "Cfb"] },
  { code: "hot-dry-summer", classes: ["Csa"] },
  { code: "warm-dry-summer", classes: ["Csb"] },
  { code: "dry", classes: ["BSh", "BSk"] },
];

/** What is said of a demo trial before anyone joins it. */
export interface DemoTrialSeed {
  readonly id: string;
  readonly slug: string;
  readonly title: string;
  readonly question: string;
  readonly joinCode: string;
  readonly boxesMin: number;
  readonly boxesMax: number;
  /** Seats per region; null: as many as are taken, so that others wait. */
  readonly capacity: number | null;
}

export const DEMO_CLOSED_TRIAL = {
  id: "019a0000-0000-7000-8000-000000000301",
  slug: "demo-three-grains",
  title: "Three grains, firm or soft (invented)",
  question:
    "Which of three grains, cooked firm or soft, takes best in each climate group of northern Iberia?",
  joinCode: "DEMQ2C3W",
  boxesMin: 3,
  boxesMax: 6,
  capacity: 30,
} as const satisfies DemoTrialSeed;

export const DEMO_OPEN_TRIAL = {
  id: "019a0000-0000-7000-8000-000000000302",
  slug: "demo-rice-or-barley",
  title: "Rice or barley this season (invented)",
  question: "Does pearl barley take as well as brown rice when both are cooked firm or soft?",
  joinCode: "DEMR4B7K",
  boxesMin: 2,
  boxesMax: 8,
  capacity: 24,
} as const satisfies DemoTrialSeed;

/** A small season of its own, released. */
export const DEMO_RELEASED_TRIAL = {
  id: "019a0000-0000-7000-8000-000000000303",
  slug: "demo-firm-grain",
  title: "Firm grain, first season (invented)",
  question: "Which of rice, wheat and barley takes best when all are cooked firm?",
  joinCode: "DEMF6H2M",
  boxesMin: 2,
  boxesMax: 6,
  capacity: 20,
} as const satisfies DemoTrialSeed;

/** Its next season: open, full, with households in every state and short of its plan's minimum. */
export const DEMO_NEXT_SEASON_TRIAL = {
  ...DEMO_RELEASED_TRIAL,
  id: "019a0000-0000-7000-8000-000000000304",
  slug: "demo-firm-grain-again",
  title: "Firm grain, second season (invented)",
  joinCode: "DEMS7J3N",
  capacity: null,
} as const satisfies DemoTrialSeed;

/** Not open yet. */
export const DEMO_DRAFT_TRIAL = {
  id: "019a0000-0000-7000-8000-000000000305",
  slug: "demo-longer-cooking",
  title: "Soft grain, next spring (invented)",
  question: "Do soft rice and soft barley take as well as soft wheat in a wet spring?",
  joinCode: "DEMT8K4P",
  boxesMin: 2,
  boxesMax: 6,
  capacity: 15,
} as const satisfies DemoTrialSeed;
