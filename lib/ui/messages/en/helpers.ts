/** Words of helper links: for the grower who makes one, and for whoever opens it. */
export const helperMessages = {
  title: "Somebody helps you",
  lead: "With a link, somebody without an account can tell what happened to this set of boxes and record its growth, in your name. They see this set only: not the place, not your other sets, nothing of your account.",
  make: "Make a link",
  makeAnew: "Make a new link",
  anewEnds: "A new link ends the one before.",
  until: (day: string) => `A link holds until ${day}.`,
  shownOnce: "This link is shown once. Send it, or have it read off this screen.",
  qr: "The same link as a QR code",
  copy: "Copy the link",
  copied: "Copied.",
  link: "Link",
  takeBack: "Take the link back",
  outcomes: {
    MADE: "The link is made.",
    TAKEN_BACK: "The link is taken back; it opens nothing any more.",
    NOT_FOUND: "There is no such link or set any more. Load the page again.",
    NOT_DRAWN_YET: "Let chance pick the recipes first.",
  } as Readonly<Record<string, string>>,

  page: {
    metaTitle: "Helping",
    title: (code: string) => `You help with set ${code}`,
    lead: "You need no account. You see this set of boxes only, and what you tell goes to whoever set it out.",
    ended: "This link opens nothing",
    endedLead:
      "It has run out or was taken back. Ask whoever gave it to you for a new one. What you had saved is safe.",
    givenUp: "This set was given up. What you record of its boxes is still kept.",
    nothingUntil: (day: string) => `Nothing to do until ${day}`,
    cook: "Weigh grain and water for each box as the list says. Whoever set this up tells when it is done.",
    setOutTitle: "The boxes wait to be set out",
    setOut: "Whoever set this up tells when they are out.",
    plannedFor: (day: string) => `They are to be set out on ${day}.`,
    backAlready: "They are back already",
    done: {
      title: "All boxes are recorded",
      lead: "Thank you. What you recorded can still be corrected below.",
    },
    boxes: "The boxes",
    boxesLead:
      "In the order of their numbers. What a helper told or recorded can be taken back or corrected here.",
    stop: "I’m done helping",
    stopHint: "Forgets the link on this phone, and what was typed and not sent.",
  },
} as const;
