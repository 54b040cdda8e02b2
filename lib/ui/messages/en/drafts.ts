/** Words of what is typed and waits on the phone. */
export const draftMessages = {
  noSignal: {
    title: "Nothing came back.",
    detail:
      "It may or may not have been saved. What you typed is still on this phone: send it again, it won’t be doubled.",
  },
  "on-phone": "On this phone, not sent yet.",
  "page-only": "This phone keeps nothing by itself: leave this page open until it is sent.",
} as const;
