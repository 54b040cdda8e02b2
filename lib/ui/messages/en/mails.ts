/** The mails Grainlot sends: plain text. */
export const mailMessages = {
  test: {
    subject: "A test message of Grainlot",
    text: "This mail server takes mail from Grainlot. Nothing else is meant by it.\n",
  },
  reset: (name: string, link: string) => ({
    subject: "Set a new password for Grainlot",
    body: `Hello ${name},

somebody, most likely you, asked to set a new password for your Grainlot account. Open this link within one hour; it works once:

${link}

If it wasn't you, leave this mail be: nothing changes.
`,
  }),
  placeFree: (name: string, trial: string, region: string, link: string) => ({
    subject: "You have a seat in a Grainlot trial",
    body: `Hello ${name},

a seat came free in the trial “${trial}”, region ${region}. You waited longest, so your household has it now. Nothing more is needed; plan your first set of boxes when it suits you:

${link}

If you can't take part after all, leave the trial on that page, and the next in line gets the seat.
`,
  }),
  passwordChanged: (name: string, link: string) => ({
    subject: "Your Grainlot password was changed",
    body: `Hello ${name},

the password of your Grainlot account was changed, and every phone and computer was signed out.

If it wasn't you, set a new one at once:

${link}
`,
  }),
  leadAdded: (name: string, title: string, link: string) => ({
    subject: "You lead a trial on Grainlot",
    body: `Hello ${name},

a lead of the trial “${title}” has made you a further lead of it. You find it here:

${link}

If you don't want that, step back there under “Leads”.
`,
  }),
  correctionAsked: (boxCode: string) => ({
    subject: "Please look at a record again",
    body: `The lead of your trial asks you to look at the record of box ${boxCode} again. What is asked stands under My things, with the way to the box. You correct the record yourself, or say that it stands as it is.`,
  }),
  /** What the author of own words or of a picture reads when a lead has hidden it (with a reason) or shows it again. */
  hiding: ({
    kind,
    boxCode,
    text,
    reason,
  }: {
    kind: "words" | "picture";
    boxCode: string | null;
    text: string | null;
    reason: string | null;
  }) => {
    const what = kind === "words" ? "own words" : "picture";
    const where = boxCode === null ? "of a set of boxes" : `about box ${boxCode}`;
    const quoted = text === null ? "" : `\n\nYou wrote:\n${text}`;
    return reason === null
      ? {
          subject: `Your ${what} can be seen again`,
          body: `The lead of the trial shows your ${what} ${where} again.${quoted}`,
        }
      : {
          subject: kind === "words" ? "Your own words were hidden" : "Your picture was hidden",
          body: `The lead of the trial has hidden your ${what} ${where}. Only you can see them now. You may record it again in other words or send another picture.\n\nThe reason given:\n${reason}${quoted}`,
        };
  },
  /** Under every mail that a trial's lead set off. */
  letterFoot: ({ trialTitle, read, stop }: { trialTitle: string | null; read: string; stop: string }) =>
    `--
${trialTitle === null ? "The lead of a trial" : `The lead of the trial “${trialTitle}”`} wrote this to you through Grainlot. Answers to this mail reach nobody. It stands on this page, too:
${read}

To get no such mails any more, open this link; you needn't sign in:
${stop}
`,
} as const;
