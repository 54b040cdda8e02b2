/** Invented regions in northern Iberia; extents in degrees to 0.1. Ids are fixed so that the demo is the same everywhere. */
export const DEMO_REGIONS = [
  {
    id: "019a0000-0000-7000-8000-000000000101",
    code: "demo-north-shore",
    name: "North shore (invented)",
    south: 42.8,
    west: -9.3,
    north: 43.8,
    east: -1.3,
  },
  {
    id: "019a0000-0000-7000-8000-000000000102",
    code: "demo-inner-west",
    name: "Inner west (invented)",
    south: 41,
    west: -9.3,
    north: 42.8,
    east: -5,
  },
  {
    id: "019a0000-0000-7000-8000-000000000103",
    code: "demo-high-plain",
    name: "High plain (invented)",
    south: 41,
    west: -5,
    north: 42.8,
    east: -1.3,
  },
  {
    id: "019a0000-0000-7000-8000-000000000104",
    code: "demo-east-valleys",
    name: "East valleys (invented)",
    south: 41,
    west: -1.3,
    north: 43.8,
    east: 3.3,
  },
] as const;
