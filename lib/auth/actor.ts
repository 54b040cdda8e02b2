/** Whoever makes a request, as far as the database confirms it. Only `currentActor` (session.ts) makes one. */
export interface Actor {
  readonly accountId: string;
  readonly growerId: string;
  readonly householdId: string;
  readonly name: string;
  readonly isAdmin: boolean;
  /** May make trials of their own. */
  readonly mayLead: boolean;
}
