import type { PlannerRefusal, PlannerRequest, PlannerResult } from "@/shared/schemas/planner";
export declare function planTrial(request: PlannerRequest): PlannerResult | PlannerRefusal;
