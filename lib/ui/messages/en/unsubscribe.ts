/** Words of the page that a link under a lead’s letter leads to. */
export const unsubscribeMessages = {
  title: "No more letters by mail",
  lead: "Leads write to the growers of their trials. You can have these letters stand under My things only, and none by mail. Under Account you can change that again.",
  submit: "Stop the mails",
  outcomes: {
    STOPPED: "No lead’s letter is mailed to you any more.",
    NOT_FOUND:
      "This link isn’t complete. Open it once more from the mail, or switch the mails off under Account.",
  },
} as const;
