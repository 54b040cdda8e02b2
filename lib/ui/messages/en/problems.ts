/** What is wrong and what to do, by the reason a service or route refuses with. */
export const problemMessages = {
  SIGN_IN_FIRST: { title: "You are not signed in.", detail: "Sign in and try again; what you typed is kept." },
  NOT_SAME_ORIGIN: {
    title: "This request did not come from this site.",
    detail: "Open the page here and send it again.",
  },
  NOT_FOUND: { title: "There is nothing here for you.", detail: "Check the address, or go back to your boxes." },
  SEND_JSON: { title: "This address takes JSON.", detail: "Send it with content-type application/json." },
  NOT_JSON: { title: "What arrived is not JSON.", detail: "Send it again." },
  TOO_LARGE: { title: "That is too much at once.", detail: "Send at most 1 MB." },
  INVALID: { title: "Some answers can't be used.", detail: "Mend the ones named and send again." },
  ID_USED_FOR_OTHER_CONTENT: {
    title: "This was already sent with other content.",
    detail: "What was saved first stands. Record a correction instead.",
  },
  CHANGED_MEANWHILE: {
    title: "This changed meanwhile.",
    detail: "Load the page again, look at what changed, then make your change.",
  },
  SAY_WHICH_VERSION: {
    title: "An edit must say what it is based on.",
    detail: "Send the header If-Match with the version you saw.",
  },
  TOO_MANY_REQUESTS: { title: "Too many tries.", detail: "Wait a few minutes and try again." },
  FAULT: { title: "Something broke on our side.", detail: "Nothing was saved. Try again in a minute." },
  REFUSED: { title: "That isn't possible now.", detail: "Load the page again to see where things stand." },
} as const;
