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

/**
 * Whoever records boxes in a grower's name: the grower (an `Actor` is one), or somebody with the grower's helper
 * link, who is held to one set. Services that take no `Recorder` can't be reached through a helper link.
 */
export interface Recorder {
  readonly accountId: string;
  readonly growerId: string;
  /** The one set of boxes a helper may record; absent for the grower. */
  readonly onlyOutingId?: string;
}

/** Somebody with a helper link that holds. Only `currentHelper` (helper.ts) makes one. */
export interface Helper extends Recorder {
  readonly onlyOutingId: string;
  readonly boxIds: readonly string[];
}
