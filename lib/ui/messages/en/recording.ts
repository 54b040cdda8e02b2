/** Words of recording what grew, of its pictures, and of what waits on the phone. */
export const recordingMessages = {
  draft: {
    "on-phone": "On this phone, not sent yet.",
    "page-only": "This phone keeps nothing by itself: leave this page open until it is sent.",
  },

  photo: {
    take: "Take or choose a picture",
    takeAnother: "Another picture",
    enough: (most: number) => `${most} pictures are the most. Remove one to add another.`,
    list: "Pictures",
    alt: (n: number) => `Picture ${n}`,
    state: {
      sent: "Sent.",
      sending: "Sending …",
      waiting: "On this phone, not sent yet.",
      refused: "",
    },
    remove: "Remove",
    removeLabel: (n: number) => `Remove picture ${n}`,
    removeSure: "Remove this picture for good?",
    hidden: (reason: string) => `Hidden from everyone but you. Why: ${reason}`,
    noSignal: {
      title: "On this phone, not sent yet.",
      detail: "It goes by itself when there is signal and this page is open.",
    },
  },
} as const;
