/** Words for a trial's next season: the lead's copy, and the links between the two on their public pages. */
export const seasonMessages = {
  title: "Another season",
  lead: "A draft with the same question, recipes, regions with their seats, climate groups and choices for its plan, ending on the same day of a later year. You can change all of it before it opens. Once it has opened, the two trials’ pages lead to each other.",
  submit: "Make the draft",
  back: "To the trial",
  outcomes: {
    NOT_FOUND: "There is nothing here for you.",
    MAY_NOT_LEAD: "Whoever runs this server can allow you to make trials.",
    TRIAL_IS_DRAFT: "This trial has not opened yet.",
    TRY_AGAIN: "That did not work out. Send it again.",
  } as Readonly<Record<string, string>>,
  follows: "An earlier season:",
  followedBy: "It goes on as:",
} as const;
