/** What can be wrong with a ledger. */
export type LedgerProblem =
  /** The secret is not the one whose seal was published. */
  | "WRONG_SECRET"
  /** The plan is not the one whose hash was published. */
  | "PLAN_CHANGED"
  /** The entry's content no longer gives its hash. */
  | "CHANGED_ENTRY"
  /** The entry does not follow the one before: one dropped, swapped or slipped in, or another trial, plan or seal. */
  | "BROKEN_CHAIN"
  /** The outing has been drawn for before. */
  | "SECOND_DRAW_FOR_OUTING"
  /** The entry's arms, their order or their grains are not the plan's. */
  | "ARMS_CHANGED"
  /** The entry's boxes, climate group, grains or fetch day are none that the plan has. */
  | "OUTSIDE_PLAN"
  /** The entry's `drawnBefore` counts are not those of the earlier entries. */
  | "COUNTS_DONT_FOLLOW"
  /** The entry returns an allocation that this household never had, or that has come back already. */
  | "RETURN_DOESNT_FOLLOW"
  /** This version of Grainlot does not know the entry's rule. */
  | "UNKNOWN_ALGORITHM"
  /** The entry's rule is older than that of the draw before, or than the form of plan: a second result to choose from. */
  | "OLDER_ALGORITHM"
  /** Drawing again from the secret gives another result, or no draw could have given this one. */
  | "NOT_AS_DRAWN"
  /** The ledger has fewer draws than were published. */
  | "TRUNCATED"
  /** The ledger reaches the published number of draws with another hash: the whole chain was rewritten. */
  | "OTHER_HEAD"
  /** The published head is another trial's: its seal is not this ledger's. */
  | "OTHER_TRIAL";
