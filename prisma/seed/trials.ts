import type { ClimateGrouping } from "@/shared/vocabulary/climate";

/** Climate groups of the demo's trials. Places in other classes can't take part. */
export const DEMO_GROUPING: ClimateGrouping = [
  { code: "mild-wet", classes: ["Cfa", "Cfb"] },
  { code: "hot-dry-summer", classes: ["Csa"] },
  { code: "warm-dry-summer", classes: ["Csb"] },
  { code: "dry", classes: ["BSh", "BSk"] },
];

export const DEMO_CLOSED_TRIAL = {
  id: "019a0000-0000-7000-8000-000000000301",
  slug: "demo-three-grains",
  title: "Three grains, firm or soft (invented)",
  question:
    "Which of three grains, cooked firm or soft, takes best in each climate group of northern Iberia?",
  joinCode: "DEMQ2C3W",
  boxesMin: 3,
  boxesMax: 6,
  /** Seats per region. */
  capacity: 30,
} as const;

export const DEMO_OPEN_TRIAL = {
  id: "019a0000-0000-7000-8000-000000000302",
  slug: "demo-rice-or-barley",
  title: "Rice or barley this season (invented)",
  question: "Does pearl barley take as well as brown rice when both are cooked firm or soft?",
  joinCode: "DEMR4B7K",
  boxesMin: 2,
  boxesMax: 8,
  capacity: 24,
} as const;
