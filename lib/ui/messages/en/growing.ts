/** Words that every page of a grower’s shares. */
export const growingMessages = {
  noSignal: {
    title: "Nothing came back.",
    detail:
      "It may or may not have been saved. What you typed is still here: send it again, it won’t be doubled.",
  },
  sending: "Sending …",
  chooseFirst: "Choose …",
} as const;
