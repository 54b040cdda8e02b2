/** Words of taking and showing pictures; apart, as they come to the phone after the questions. */
export const pictureMessages = {
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
  /** `reason` empty: it went with the account of whoever gave it. */
  hidden: (reason: string) =>
    `Hidden from everyone but you. ${reason ? `Why: ${reason}` : "Whoever hid it has left, and the reason with them."}`,
  noSignal: {
    title: "On this phone, not sent yet.",
    detail: "It goes by itself when there is signal and this page is open.",
  },
} as const;
