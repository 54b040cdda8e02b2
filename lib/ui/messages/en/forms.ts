/** Words that the forms of all areas share. */
export const formMessages = {
  invalid: { title: "Some answers can't be used.", detail: "Mend the ones named and send again." },
  noSignal:
    "Nothing came back, so it may or may not have been done. What you typed is still here: send it again.",
  signedOut: {
    words:
      "You are signed out by now. What you typed is still here: sign in in another tab, then send it again.",
    link: "Sign in in another tab",
  },
} as const;
